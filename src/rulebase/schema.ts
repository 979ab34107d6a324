/** The form of a rule file, as a mechanic writes it. The JSON Schema for editors is made from this. */
import * as z from 'zod';
import { taught } from '../form/teach.ts';
import { READINGS, type Reading } from '../bike/circuits.ts';
import { TODO } from '../bike/check/sheet-trade.ts';
import { READS } from '../bike/gauge/gauge.ts';
import { OWN_UNITS } from '../bike/own-setting.ts';
import { kinds, numbers } from './numbers-schema.ts';
import { REASONS } from './reasons.ts';

const text = z.string().trim().min(1);
const id = z.string().regex(/^[a-z0-9{}]+([.-][a-z0-9{}]+)*(@(\{end\}|\{other\}|front|rear|either))?$/, {
  error: 'an id is lower-case words joined by - or . , for example lone-hit.kick',
});
const plainText = taught(text, 'Write it again in words a rider without a workshop understands.');
const ends = taught(
  z.array(z.enum(['front', 'rear'])).min(1),
  'Write for: [front, rear], or one of them; leave it out where it has no end.',
);
const frequency = text.meta({
  description: 'a frequency word of the pack, such as rarely, sometimes, often, usually',
});

export const source = z
  .union([
    z.enum(['common-practice', 'from-memory']),
    z.strictObject({ title: text, year: z.int().optional(), page: text.optional(), url: z.url().optional() }),
  ])
  .default('common-practice')
  .meta({
    description:
      'where the rule comes from, when it is more than common practice: from-memory, or {title, year, page, url}',
  });

const status = z.enum(['draft', 'trial', 'disputed', 'settled', 'retired']).default('trial').meta({
  description:
    'when it is not trial (in use, watched): draft: not yet tried; disputed: those who know disagree; settled: agreed; retired: replaced by its heir',
});

const standing = { source, status, heir: id.optional(), since: text.optional() };

/** The same in other words, for an end whose only rebound knob acts on both circuits. */
const oneKnob = <T extends string>(...keys: readonly T[]) =>
  z
    .strictObject(
      Object.fromEntries(keys.map((key) => [key, text.optional()])) as Record<T, z.ZodOptional<typeof text>>,
    )
    .optional()
    .meta({ description: 'these texts where the end has one rebound knob, which acts on both circuits' });

const direction = z.strictObject({
  name: text.meta({ description: 'what a mechanic calls it' }),
  plain: text.meta({ description: 'what a rider alone is told' }),
  prior: frequency.meta({ description: 'how common this is, before anything is asked; a relative weight' }),
  'one-knob': oneKnob('name', 'plain'),
  pair: z.strictObject({ name: text, plain: text }).optional().meta({
    description:
      'words for this and the same direction of the partner together, where this one is the likelier',
  }),
  'while-likely': z
    .union([id, z.strictObject({ front: id.optional(), rear: id.optional() })])
    .optional()
    .meta({
      description:
        'the caution that stands on every card while this is likely, whatever comes first; one for both ends, or one an end',
    }),
  reads: z.enum(['low', 'high']).optional().meta({
    description: 'which side of its target the bike sheet number is on when this is the cause',
  }),
});

const adjuster = z
  .union([
    text.meta({ description: 'a knob of the damper, e.g. rebound.low' }),
    z.strictObject({
      unit: z.enum(OWN_UNITS).optional().meta({
        description: 'what it is counted in; clicks where nothing is said, positions with positions:',
      }),
      positions: z
        .array(z.string().regex(/^[a-z][a-z0-9-]*$/))
        .min(2)
        .optional()
        .meta({ description: 'where a switch can stand, from closed (or lowest) to open (or highest)' }),
      range: z
        .tuple([z.number(), z.number()])
        .optional()
        .meta({ description: 'what no bike goes beyond, in its unit; of clicks: the fewest and the most' }),
      grain: z.number().positive().optional().meta({ description: 'the smallest step that can be set' }),
      stale: z
        .array(z.enum(Object.keys(READINGS) as Reading[]))
        .optional()
        .meta({ description: 'readings of the bike sheet that are no longer true once it is moved' }),
      find: text.optional().meta({ description: 'how to find out where it stands' }),
    }),
  ])
  .optional()
  .meta({ description: 'what is turned: a knob of the damper, or a new row of the bike sheet' });

const setting = z.strictObject({
  id,
  for: ends.optional(),
  name: text,
  plain: text,
  kind: kinds,
  sheet: z
    .enum(['clicks', 'sag', 'tyre'])
    .optional()
    .meta({ description: 'which number of the bike sheet speaks about this setting' }),
  adjuster,
  where: z
    .union([text, z.strictObject({ front: text, rear: text })])
    .optional()
    .meta({
      description: 'for a rider: where it usually is, in a sentence; one for both ends, or one an end',
    }),
  'one-knob': oneKnob('name', 'plain'),
  partner: id
    .optional()
    .meta({ description: 'the other adjuster of the same pair, which it also moves a little' }),
  'put-back-with': id.optional().meta({
    description: 'the setting that is put back in the same go, where a change of both made it worse',
  }),
  called: z
    .array(z.string().regex(/^[a-z][a-z-]*$/))
    .min(1)
    .optional()
    .meta({ description: 'other names it goes by under tried:, without the end, e.g. [pressure]' }),
  ways: z
    .record(z.string(), z.array(z.string().regex(/^[a-z][a-z -]*$/)).min(1))
    .optional()
    .meta({
      description:
        'what riders call turning it, under the direction that this takes away, e.g. too-slow: [open, faster]',
    }),
  springs: z
    .array(z.enum(['air', 'coil']))
    .min(1)
    .optional()
    .meta({ description: 'a part of the suspension, and of ends with these springs only, e.g. [air]' }),
  directions: z.record(z.string(), direction),
  ...standing,
});

const gate = z.record(id, z.union([text, z.array(text).min(1)]));

const MINUTES = 'Say what it costs, in minutes: 0.3 to recall, 5 in the stand, 10 for a run.';
const question = z.strictObject({
  id,
  for: ends.optional(),
  ask: text,
  plain: plainText,
  help: taught(text, 'Write a sentence or two on how the rider can find out.'),
  'one-knob': oneKnob('ask', 'plain', 'help'),
  how: taught(z.enum(['recall', 'stand', 'ride']), 'Say how it is answered: how: recall, stand or ride.'),
  minutes: taught(z.number().min(0).max(120), MINUTES),
  'only-if': gate
    .optional()
    .meta({ description: 'ask only after one of these answers, or with this on the bike' }),
  topic: taught(id, 'Name the impression it is answered from; questions of one topic share their trust.'),
  safety: z.boolean().optional().meta({ description: 'asked first and never skipped' }),
  dangerous: z
    .record(z.string(), z.union([id, z.strictObject({ caution: id, with: gate })]))
    .optional()
    .meta({
      description:
        'answers that stop all tuning, each with the caution that says what to do; with: only beside one of these answers to another question',
    }),
  cautions: z
    .record(z.string(), id)
    .optional()
    .meta({ description: 'answer → the caution that is shown with it, whatever else is advised' }),
  'early-when': gate.optional().meta({
    description:
      'asked before all but the safety questions once any of these was answered; tried. and a setting: what turning it did, such as same',
  }),
  measures: id.optional().meta({ description: 'the setting whose number this check reads' }),
  'on-sheet': id.optional().meta({
    description:
      "the setting or reading that it asks about, roughly: told beside it where the sheet has the number, and not asked where it has the maker's figure too",
  }),
  gauge: z
    .strictObject({
      reads: z.enum(READS),
      answers: z
        .strictObject({ below: text, near: text, above: text })
        .meta({ description: 'the answer that a number below, on and above target is' }),
      against: z.record(id, text).meta({
        description:
          "what a number is held against, the first that is known: sheet (the sheet's own figure), weight (usual for the rider's weight), or a figure of the pack; each with how far off is still on target: near, 2 psi, or 25 %",
      }),
    })
    .optional()
    .meta({ description: 'a number may be typed in the place of an answer' }),
  answers: z.record(z.string(), text),
  default: taught(text, 'Name the answer given when no sign is noticed, e.g. default: no.'),
  'when-several': taught(
    text,
    'Say what is answered when several signs are noticed: cancel, any, or an answer id.',
  ),
  several: z.boolean().optional().meta({
    description: 'several answers may be given, as a list; only with when-several: any',
  }),
  implies: z.record(z.string(), z.record(id, text)).optional().meta({
    description: 'answer → question → answer that goes without saying: opens and shuts gates, is no evidence',
  }),
  usually: z.record(z.string(), frequency).optional(),
  'points-to': z.record(z.string(), z.record(id, frequency)),
  assignment: text
    .optional()
    .meta({ description: 'what to go and ride or check when the rider cannot tell' }),
  'confusable-with': z
    .array(z.strictObject({ id, tell: text }))
    .min(1)
    .meta({ description: 'which question or cause this is mistaken for, and how to tell them apart' }),
  physics: z
    .strictObject({
      scenario: text,
      metric: text,
      sign: z.enum(['up', 'down']),
      answer: text
        .optional()
        .meta({ description: 'the sign whose causes are audited; default: the only one' }),
      disagree: z
        .record(id, text)
        .optional()
        .meta({ description: 'causes the model disagrees on, with the reason' }),
    })
    .optional(),
  ...standing,
});

const move = z.union([text, z.strictObject({ toward: text, share: z.number().min(0).max(1) })]);

/** measure: reads a number, changes nothing. put-back: takes back what was tried and did not help. */
export const adjustmentKinds = [
  'click',
  'pressure',
  'preload',
  'spacer',
  'tyre',
  'cockpit',
  'repair',
  'habit',
  'rebuild',
  'measure',
  'put-back',
] as const;

const answersOf = z.record(id, z.union([text, z.array(text).min(1)]));

const refusal = z
  .strictObject({
    answers: answersOf.optional().meta({ description: 'question → answers; each must have been given' }),
    causes: z
      .record(id, z.number().gt(0).max(1))
      .optional()
      .meta({ description: 'cause → probability that each must have at least' }),
    below: z
      .record(id, z.number().gt(0).max(1))
      .optional()
      .meta({ description: 'cause → probability that each must stay below' }),
    unless: answersOf.optional().meta({ description: 'question → answers; any one of them lifts it' }),
    'until-tested': z.array(id).min(1).optional().meta({
      description:
        'the adjustments that it waits for: it ends once a trial found one of them no better and none is left that is worth one',
    }),
    why: text.meta({ description: 'in words, after "refused, because"' }),
  })
  .refine((r) => r.answers !== undefined || r.causes !== undefined, { error: 'needs answers: or causes:' });

const adjustment = z.strictObject({
  id,
  for: ends.optional(),
  do: text,
  plain: plainText,
  kind: z.enum(adjustmentKinds),
  change: z
    .strictObject({
      setting: id,
      by: z.number(),
      unit: z.enum(OWN_UNITS),
      most: z.number().positive().optional().meta({
        description:
          'a spring whose sag was measured is moved by the whole correction of the spring model instead of by:, but no more than this at once',
      }),
      'not-below': z.number().optional().meta({ description: 'never set lower than this' }),
    })
    .optional()
    .meta({ description: 'the step in numbers; + is more open, more pressure, more spacers, higher' }),
  minutes: taught(z.number().min(0).max(10_000), MINUTES),
  moves: z
    .record(id, move)
    .optional()
    .meta({ description: 'which setting it moves, toward which direction' }),
  fixes: z
    .record(id, z.number().min(0).max(1))
    .optional()
    .meta({ description: 'cause → share of it that is cured' }),
  needs: z
    .record(z.string(), z.union([text, z.array(text).min(1)]))
    .optional()
    .meta({
      description: 'what must be on the bike sheet, e.g. {spring: air}; ignored when nothing is written down',
    }),
  reads: id.optional().meta({ description: 'the question that a measurement answers; for kind: measure' }),
  after: z
    .enum(['worse', 'same'])
    .optional()
    .meta({ description: 'of kind: put-back, what the rider said that came of it; left out: either' }),
  'measure-first': z
    .array(z.union([id, z.strictObject({ read: id, when: z.array(answersOf).min(1) })]))
    .min(1)
    .optional()
    .meta({
      description:
        'questions of a gauge; until each is answered or on the sheet, reading it comes first; when: only where all of one of these hold: question → answers, or bike. and a path of the sheet → values',
    }),
  'first-when-measured': z.array(id).min(1).optional().meta({
    description: 'once one of these gauges reads off, this comes before every click at its end',
  }),
  'first-when-answered': z
    .union([answersOf, z.array(answersOf).min(1)])
    .optional()
    .meta({
      description:
        'question → answers; where each was given, this comes before every change; a list: where all of one of them hold',
    }),
  proofs: z
    .strictObject({
      blocked: z
        .array(id)
        .min(1)
        .optional()
        .meta({ description: 'adjustments that cannot be done here: no knob, or at its stop' }),
      likely: z
        .number()
        .gt(0)
        .max(1)
        .optional()
        .meta({ description: 'probability that a cause it cures must have at least' }),
      answered: answersOf.optional().meta({ description: 'question → answers; each must have been given' }),
    })
    .optional()
    .meta({ description: 'it is never first unless all of these hold' }),
  'refuse-when': z
    .array(refusal)
    .min(1)
    .optional()
    .meta({ description: 'it is not advised at all where one of these holds' }),
  'way-back': taught(text, 'Say how to undo it.'),
  next: z.array(id).optional().meta({ description: 'the next rungs, when this cannot be done' }),
  'knock-on': text.optional().meta({ description: 'what else it does, at both ends' }),
  feel: taught(
    text.meta({ description: 'what to feel for on the trial run' }),
    'Say what to feel for on the trial run.',
  ),
  repeat: z
    .strictObject({
      until: text.meta({ description: 'what is felt or read when it is enough, after "until"' }),
      stop: text.meta({ description: 'what says that it is too much, after "when"' }),
      'by-gauge': z.boolean().default(false).meta({ description: 'until: is read, not felt' }),
      far: z
        .union([answersOf, z.array(answersOf).min(1)])
        .optional()
        .meta({
          description:
            'question → answers; where each was given, it stands far off, and one step is not enough; a list: where all of one of them hold',
        }),
    })
    .optional()
    .meta({ description: 'how a step goes on where no figure of the sheet ends it' }),
  'one-knob': oneKnob('do', 'plain', 'way-back', 'knock-on', 'feel'),
  cautions: z.array(id),
  'cautions-from': z.record(z.string(), z.number().positive()).optional().meta({
    description: 'caution → the least step, in the unit of change:, with which it is said',
  }),
  'cautions-when': z
    .record(z.string(), answersOf)
    .optional()
    .meta({ description: 'caution → question → answers; it is added where each was given' }),
  ...standing,
});

const caution = z.strictObject({
  id,
  for: ends.optional(),
  level: z.enum(['note', 'care', 'stop']),
  text,
  show: z
    .enum(['always', 'with'])
    .meta({ description: 'always: on every result; with: when an adjustment or answer asks' }),
  ...standing,
});

const concept = z.strictObject({
  id,
  words: z
    .array(text)
    .min(1)
    .meta({ description: 'ways of saying one thing; phrases hold them as <id>, words keep their order' }),
  where: z
    .boolean()
    .optional()
    .meta({ description: 'true: it says where or when, and may stand in an earlier part of the sentence' }),
  same: z
    .boolean()
    .optional()
    .meta({ description: 'true: its words, single ones, stand for each other in every phrase' }),
  masks: z
    .boolean()
    .optional()
    .meta({ description: 'true: its words say no place: "low-speed knob" is not "at low speed"' }),
  well: z
    .boolean()
    .optional()
    .meta({ description: 'true: it says that all is well: what was so before it is over' }),
  'not-about': z.array(id).optional().meta({
    description:
      'questions without their end: it speaks of something else, and what stands in the same statement answers none of them, as "the brake lever is slow to come back" tells no rebound',
  }),
  tells: z
    .strictObject({
      setting: text.optional(),
      way: z.enum(['more', 'less', 'open', 'close']).optional(),
      unit: text.optional(),
      result: z.enum(['better', 'same', 'worse', 'not-sure']).optional(),
      'put-back': z.literal('yes').optional(),
      implied: z.literal(true).optional().meta({
        description:
          'the setting is meant only where no other is named: clicks faster are of the rebound; the way only where no word of doing tells one, and its words stand side by side: two clicks in',
      }),
      filled: z.literal(true).optional().meta({
        description: 'the setting is filled and let out, not turned: 5 psi out is less',
      }),
      for: z.array(id).optional().meta({
        description:
          'questions without their end: what came of a change beside it, better or worse, is said of these',
      }),
    })
    .optional()
    .meta({
      description: 'what it says of a change that was tried: of which setting, which way, what came of it',
    }),
});

const endName = z.strictObject({
  id: z.enum(['front', 'rear']),
  names: z.array(text).min(1).meta({ description: 'words that are just another name of the end' }),
  parts: z
    .array(text)
    .optional()
    .meta({ description: 'words that tell the end but stay words of their own, as nose in "nose low"' }),
  hints: z
    .array(text)
    .optional()
    .meta({ description: 'words that tell the end only where nothing else does' }),
});

const span = z.strictObject({ from: z.number().optional(), to: z.number().optional() });

const words = z.strictObject({
  id,
  says: z.array(text).min(1),
  number: span.extend({ of: z.boolean().optional() }).optional().meta({
    description:
      'holds only where the number said lies there; of: true takes the first number in percent of the second',
  }),
  weak: z.enum(['question', 'all']).optional().meta({
    description:
      'too little by itself: offered only where nothing else that was said answers its question, or where nothing else is offered at all',
  }),
  across: z.boolean().optional().meta({
    description:
      'its words stand in this order anywhere in one sentence, across commas: "first lap fine, then harsh"',
  }),
  unless: z
    .array(id)
    .optional()
    .meta({ description: 'concepts; where one of them stands in the same statement it is not meant' }),
  ambiguous: z.boolean().optional(),
  means: z.array(text).optional().meta({ description: 'what it can mean, when it can mean opposite things' }),
  separates: z.array(id).optional().meta({ description: 'the questions that tell the meanings apart' }),
  'could-be': z
    .array(z.strictObject({ question: id, answer: text }))
    .optional()
    .meta({ description: 'answers to offer for confirmation; {end} takes the end that was named' }),
  source,
});

const heard = z.strictObject({
  id: id.meta({ description: 'a question without its end' }),
  right: z
    .number()
    .int()
    .min(0)
    .meta({ description: "readings of riders' words that were right or plausible" }),
  wrong: z.number().int().min(0),
});

const sentence = z.strictObject({
  id,
  for: ends.optional(),
  says: z
    .record(z.string(), text)
    .meta({ description: 'answer → what it says, as one sentence to be confirmed' }),
});

const glossary = z.strictObject({ term: text, means: text, see: z.array(text).optional() });

const opening = z.strictObject({
  id,
  say: text,
  plain: plainText,
  topics: z.array(id).min(1).meta({ description: 'the topics to ask about first' }),
  answers: z.record(id, text).optional().meta({ description: 'questions that choosing this answers' }),
});

const answered = z.record(
  z.string(),
  z.union([text, z.strictObject({ answer: text, sure: z.enum(['sure', 'fairly', 'guess']).optional() })]),
);

const check = z.strictObject({
  name: text,
  for: ends.optional(),
  covers: text.optional().meta({ description: 'the line of the trade it tests' }),
  given: answered,
  bike: z.record(z.string(), z.unknown()).optional().meta({ description: 'a bike sheet, as in a bike file' }),
  expect: z.strictObject({
    first: id.optional(),
    'one-of': z.array(id).min(1).optional(),
    'top-3': z.array(id).min(1).optional(),
    not: z
      .array(id)
      .min(1)
      .optional()
      .meta({ description: 'causes that must stay below one chance in five' }),
    'at-least': z
      .number()
      .min(0)
      .max(1)
      .optional()
      .meta({ description: 'the least probability of the first cause' }),
    nothing: z.boolean().optional().meta({ description: 'true: nothing is off must be the verdict' }),
    adjustment: z
      .union([id, z.array(id).min(1)])
      .optional()
      .meta({ description: 'what must be done first' }),
    'not-adjustment': z.array(id).min(1).optional(),
    caution: id.optional(),
  }),
});

const least = z.number().min(0);

/** What counts as on target on a bike sheet. */
export const near = z.strictObject({
  sag: least.meta({ description: 'percentage points of travel' }),
  tyre: least.meta({ description: 'percent of the target' }),
  pressure: least.meta({ description: "of an air spring, percent of the maker's figure" }),
  leverage: least.meta({ description: 'percent that leverage and travel may differ from the stroke' }),
  clicks: least.meta({ description: "of a knob, clicks from the maker's figure" }),
  'travel-left': least.meta({ description: 'percent of travel that is short when left over' }),
  'travel-end': least.meta({ description: 'percent of travel that is nothing left' }),
  spacers: least.meta({ description: 'volume spacers that fit in most air springs' }),
  'tyre-for': z
    .strictObject({
      low: z.number().gt(0).lt(100),
      high: z.number().gt(100),
      rows: z
        .array(
          z.strictObject({
            kg: z.number().positive(),
            front: z.number().positive(),
            rear: z.number().positive(),
          }),
        )
        .min(2)
        .refine((rows) => rows.every(({ kg }, i) => i === 0 || kg > rows[i - 1]!.kg), 'by rising weight'),
    })
    .optional()
    .meta({
      description:
        "usual tyre pressures in psi by the rider's weight in kg, with kit; far off below `low` and above `high`, in percent of them",
    }),
});

export type Near = Readonly<z.infer<typeof near>>;

/** Where no pack says so. */
export const NEAR: Near = {
  sag: 2,
  tyre: 5,
  pressure: 5,
  leverage: 5,
  clicks: 2,
  'travel-left': 25,
  'travel-end': 2,
  spacers: 5,
};

const lines = z.array(text);

export const packFile = z.strictObject({
  pack: id,
  version: text,
  about: text,
  'word-scale': z.strictObject({ source, percent: z.record(text, z.number().gt(0).lt(100)) }).optional(),
  numbers: numbers.partial().optional(),
  'left-alone': text.optional().meta({
    description:
      'said where the bike is left as it is: what would be a sign that something is off all the same',
  }),
  'against-test': text.optional().meta({
    description: 'what to check where a step for the likeliest cause was tested and was no better',
  }),
  'usual-note': text.optional().meta({
    description: 'said beside a figure that is only usual, where a number is asked for',
  }),
  figures: z
    .record(
      id.refine((name) => name !== 'end' && name !== 'other', 'end and other stand for the ends'),
      z.union([
        text,
        z
          .strictObject({ from: z.number(), to: z.number(), unit: z.enum(['%', 'psi', 'bar']) })
          .meta({ description: 'as numbers, so that what is measured can be held against it' }),
      ]),
    )
    .optional()
    .meta({
      description:
        'trade figures that stand in several texts, each written once: {name} in a text stands for it; a later pack replaces them one by one',
    }),
  'sheet-check': z
    .strictObject({
      near: near.partial().optional().meta({
        description:
          'how far a number may be off and still be on target; a later pack replaces them one by one',
      }),
      todo: z
        .partialRecord(z.enum(TODO), text)
        .optional()
        .meta({ description: 'what to do about a number that is missing or cannot be right' }),
    })
    .optional()
    .meta({ description: 'what a bike sheet is checked for, and told' }),
  'sheet-asks': z
    .record(z.string(), z.strictObject({ ask: text, help: text.optional() }))
    .optional()
    .meta({
      description:
        'how a new bike sheet is asked for, by the end of a place on it: spring.pressure; {end}, {side} and {name} for what it is about',
    }),
  reasons: z.partialRecord(z.enum(REASONS), text).optional().meta({
    description:
      'why a step goes no further, waits or is passed over; each the middle of a sentence, {name} for what the bike has',
  }),
  'ride-rules': z
    .strictObject({ first: lines, helped: lines, alone: lines, last: lines, brief: lines })
    .optional()
    .meta({
      description:
        'how a trial is ridden: for all, then where somebody else sets the adjuster or the rider is alone, then the rest; in brief for a screen',
    }),
  feelings: z
    .array(z.strictObject({ id, ask: text, low: text, high: text }))
    .min(1)
    .optional()
    .meta({
      description:
        'what is rated after every run of a trial; 1 is the low end, 7 the high one; {complaint} stands for the words that the change is for',
    }),
});

export const ruleFile = z.strictObject({
  settings: z.array(setting).optional(),
  questions: z.array(question).optional(),
  adjustments: z.array(adjustment).optional(),
  cautions: z.array(caution).optional(),
  concepts: z.array(concept).optional(),
  'end-names': z.array(endName).optional(),
  words: z.array(words).optional(),
  heard: z.array(heard).optional().meta({
    description:
      'how readings of a question were judged, of lines that nobody had read when the phrases were written',
  }),
  sentences: z.array(sentence).optional(),
  glossary: z.array(glossary).optional(),
  openings: z.array(opening).optional(),
  checks: z.array(check).optional(),
});

export type PackFile = z.infer<typeof packFile>;
export type RuleFile = z.infer<typeof ruleFile>;
export type Source = z.infer<typeof source>;
export type SettingSource = z.infer<typeof setting>;
export type QuestionSource = z.infer<typeof question>;
export type AdjustmentSource = z.infer<typeof adjustment>;
export type CheckSource = z.infer<typeof check>;
