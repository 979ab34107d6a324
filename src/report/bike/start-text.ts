/** Starting points as a table, with what they rest on. */
import { ENDS, type BikeSheet, type End } from '../../bike/sheet.ts';
import { inPercent, settable, writeQuantity } from '../../bike/units.ts';
import { GRAVITY } from '../../physics/bike/bike.ts';
import { placeOf, type EndStart, type Start } from '../../physics/start.ts';
import { columns } from '../columns.ts';
import { DAMPER } from '../../bike/circuits.ts';
import { page, type Style } from '../style.ts';
import { paragraph } from '../wrap.ts';

const WIDTHS = [26, 12, 12, 12, 12];

export function startText(sheet: BikeSheet, start: Start, notes: readonly string[], style: Style): string {
  const lines = [
    style.strong(`Starting points for ${sheet.name ?? sheet.id}`),
    paragraph(
      'Your fork and shock manuals win over every number here. These numbers fill the gaps. They are a place to start testing, not a finished setup.',
      style.width,
    ),
  ];
  for (const end of start.suspended) {
    lines.push('', style.strong(columns([end, 'start at', 'recommended', 'model', 'now'], WIDTHS)));
    lines.push(...endLines(sheet, end, start.ends[end], style));
  }
  if (start.suspended.length === ENDS.length)
    lines.push('', style.strong('How the two ends ride together'), ...balanceLines(start, style));
  lines.push('', style.strong('Assumed'));
  for (const said of start.assumptions) lines.push(paragraph(said, style.width, '  - ', '    '));
  for (const note of notes) lines.push(paragraph(note, style.width, '  - ', '    '));
  lines.push(
    '',
    paragraph(
      "(a): from assumptions. (m): from what was measured on this bike. First write down where everything stands. Set the spring and measure sag again. Then set rebound, then the rest. Never go beyond the manufacturer's limits. If anything knocks, leaks or has play, stop and see a qualified mechanic.",
      style.width,
    ),
  );
  return page(lines, style);
}

function endLines(sheet: BikeSheet, end: End, { spring, clicks, reached }: EndStart, style: Style): string[] {
  const unit = spring.kind === 'air' ? sheet.units.pressure : sheet.units.rate;
  const quantity = (si: number | undefined): string => (si === undefined ? '-' : writeQuantity(si, unit));
  const mark = (basis: 'measured' | 'assumption'): string => (basis === 'measured' ? ' (m)' : ' (a)');
  const lines = [
    columns(
      [
        spring.kind === 'air' ? '  Air spring' : '  Coil spring',
        quantity(spring.begin),
        quantity(spring.maker),
        `${quantity(settable(spring.model, unit))}${mark(spring.basis)}`,
        quantity(spring.now),
      ],
      WIDTHS,
    ),
    ...clicks.map(({ circuit, begin, maker, model, now, basis, range }) => {
      const knob = sheet.ends[end].adjusters[circuit];
      // A range that nobody counted is the model's own, and no number of this bike's.
      const counted = knob?.range !== undefined;
      const place = (clicks: number): string =>
        counted ? String(clicks) : placeOf(clicks, range).replace('-', ' ');
      return columns(
        [
          `  ${DAMPER[circuit].title}`,
          counted ? `${begin} of ${range}` : place(begin),
          maker === undefined ? '-' : String(maker),
          `${place(model)}${mark(basis)}`,
          now === undefined ? (knob?.near?.replace('-', ' ') ?? '?') : String(now),
        ],
        WIDTHS,
      );
    }),
  ];
  const say = (text: string): void => void lines.push(paragraph(text, style.width, '  '));
  say(
    `The model's spring is for ${inPercent(spring.sag)} % sag with ${Math.round(spring.load / GRAVITY)} kg on the wheel.`,
  );
  if (spring.limited !== undefined)
    say(
      `The model's pressure is ${spring.limited === 'max' ? 'above' : 'below'} the manufacturer's limit: do not go there. Check the weight, the target sag and the volume spacers.`,
    );
  if (spring.kind === 'coil')
    say(
      "Coils come in steps: fit the nearest, and set the sag with preload within the manufacturer's limits.",
    );
  for (const { circuit, limited } of clicks)
    if (limited !== undefined)
      say(
        `${DAMPER[circuit].title} would need to go further ${limited} than the knob goes. That is a job for a service.`,
      );
  for (const { side, slow, fast } of reached)
    say(
      `By its measured curve, at the model's clicks, ${side} is ${slow.toFixed(2)} of critical when slow and ${fast.toFixed(2)} when fast.`,
    );
  return lines;
}

function balanceLines({ ends, balance, together }: Start, style: Style): string[] {
  const { front, rear } = ends;
  const says = {
    balanced: 'near enough to each other to ride as one bike',
    'front-firmer': 'the front rides firmer: more front sag or less rear sag would bring them together',
    'rear-firmer': 'the rear rides firmer: more rear sag or less front sag would bring them together',
  }[together];
  return [
    paragraph(
      `At target sag the front swings at ${front.frequency.toFixed(2)} Hz, the rear at ${rear.frequency.toFixed(2)} Hz (${balance.toFixed(2)} to 1): ${says}.`,
      style.width,
      '  ',
    ),
  ];
}
