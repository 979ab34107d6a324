/** `earshot log undo`: takes the last change back, in the log and on the sheet. */
import { command, onBike, text } from '../../takes.ts';
import { takingBack } from './taking-back.ts';

export const logUndo = command({
  about: 'undo the last change, in the log and on the sheet; run it again to undo the one before',
  options: { bike: onBike(), reason: text('text', 'why') },
  examples: [['earshot log undo --bike my-bike.yaml', 'undo the last change']],
  run: async (given, { io, style }) => takingBack('undo', { ...given, style: await style() }, io),
});
