/** `earshot log note`: a note into the log of a bike. */
import { args, command, onBike, text } from '../../takes.ts';
import { Refusal } from '../../../host/io.ts';
import { openToWrite } from '../../../workspace/bikes/open-bike.ts';
import { appended } from '../../../workspace/bikes/written-down.ts';

export const logNote = command({
  about: 'record a note',
  args: { text: args('the words') },
  options: { bike: onBike(), case: text('id', 'the interview whose advice you have now followed') },
  examples: [['earshot log note fresh oil in the fork --bike my-bike.yaml', 'a note']],
  run: async (given, { io, style }) => {
    const bike = await openToWrite(given.bike, io);
    const reason = given.text.join(' ').trim();
    if (reason === '') throw new Refusal('Nothing to note.');
    const about = given.case === undefined ? {} : { case: given.case };
    return await appended(bike, { kind: 'note', reason, ...about }, await style(), io);
  },
});
