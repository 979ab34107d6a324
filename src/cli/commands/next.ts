/** `earshot next`: where a bike stands, what is open, and the single next thing to do. */
import { json } from '../../form/text.ts';
import { command, format, onBike } from '../takes.ts';
import { settingWords } from '../../bike/setting-words.ts';
import { nextText } from '../../report/bike/next-text.ts';
import { EXIT } from '../../host/io.ts';
import { outlookOf } from '../../workspace/outlook.ts';
import { openBike, refusing } from '../../workspace/bikes/open-bike.ts';

export const next = command({
  about: 'where this bike is at, what is open, and the one thing to do next',
  options: { bike: onBike(), format: format('text', 'json') },
  examples: [['earshot next', 'the one thing to do next']],
  run: async (options, { io, rules, style }) => {
    const bike = await openBike(options.bike, io);
    const outlook = await refusing(() => outlookOf(options.bike, bike, rules, io));
    if (options.format === 'json') await io.out(json({ format: 1, ...outlook }));
    else await io.out(nextText(outlook, (setting) => settingWords(setting, bike.sheet), await style()));
    return EXIT.done;
  },
});
