/** `earshot log redo`: puts on again what the last undo took off, in the log and on the sheet. */
import { command, onBike, text } from '../../takes.ts';
import { takingBack } from './taking-back.ts';

export const logRedo = command({
  about: 'put on again what the last undo took off; run it again for the undo before',
  options: { bike: onBike(), reason: text('text', 'why') },
  examples: [['earshot log redo --bike my-bike.yaml', 'take the last undo back']],
  run: async (given, { io, style }) => takingBack('redo', { ...given, style: await style() }, io),
});
