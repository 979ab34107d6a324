/** The form of a pack's numbers: how far to trust riders, what trials cost, what readings of a sheet mean. */
import * as z from 'zod';

/** What a setting is; also what its causes are. */
export const kinds = z.enum(['damper', 'spring', 'ramp-up', 'tyre', 'condition', 'cockpit', 'rider']);

const normal = z.tuple([z.number(), z.number().positive()]);
const reading = z.strictObject({
  right: normal,
  low: normal,
  high: normal,
  'most-db': z.number().positive(),
});
const share = z.number().min(0).max(1);

export const numbers = z.strictObject({
  'causes-at-once': z.int().min(1).max(4),
  'at-once-beside': z.partialRecord(kinds, z.int().min(1).max(4)).optional().meta({
    description:
      'kind of setting → the most causes in a set that holds one of this kind; default: causes-at-once',
  }),
  'expected-causes': z.number().positive(),
  trust: z.strictObject({ recall: share, ride: share, stand: share }),
  slip: z
    .strictObject({ recall: share, ride: share, stand: share })
    .meta({ description: 'how often a single answer is a slip: any answer of the question, alike' }),
  'one-story': z.strictObject({ recall: share, ride: share, stand: share }).meta({
    description:
      'how far a topic whose impression is wrong is told as one story: its answers agree with each other',
  }),
  sure: z.strictObject({ sure: share, fairly: share, guess: share }),
  asking: z.strictObject({
    'minutes-floor': z.number().positive(),
    'topic-bonus': z.number().min(1),
    enough: z.number().min(0),
    'least-bits': z.number().min(0),
    'keep-asking-bits': z.number().min(0),
    'at-most-more': z.int().positive().default(6).meta({
      description: 'questions at most that are asked past enough before it is offered again to stop',
    }),
    'most-questions': z.int().positive(),
    'nothing-off': share,
    claim: share
      .default(0.8)
      .meta({ description: 'what is claimed with this or more is looked at in the stand first' }),
    'looked-over': z.int().positive().default(5).meta({
      description:
        'looks in the stand after which a bike was looked over: what the rider says is then acted on, even where one impression would explain it',
    }),
    'heard-nothing': z.int().positive().optional().meta({
      description:
        'answers that told of nothing wrong after which, with no complaint, no more are asked than the looks in the stand',
    }),
    confirmed: z.int().positive().default(2).meta({
      description:
        'where nobody asked what bothers the rider, signs in as many topics are a complaint that stands, also where nothing is found',
    }),
    'least-behind': share.default(0.02).meta({
      description: 'causes behind less of a complaint than this are not told apart for it',
    }),
    'of-complaint': z
      .strictObject({ 'nothing-for': z.int().min(0), 'may-help': z.int().min(0), all: z.int().min(0) })
      .default({ 'nothing-for': 2, 'may-help': 1, all: 3 })
      .meta({
        description:
          'how many questions are asked at most, once the rest is over, of a complaint that the change does nothing for, of one that it may help, and of all',
      }),
    checks: z.int().min(0).default(2).meta({ description: 'how many looks in the stand that takes' }),
    'other-end': share.default(0.15).meta({
      description:
        'where all that was noticed is about one end, the other is asked about only if something there is this likely',
    }),
  }),
  fit: z.strictObject({
    strange: z.number(),
    explains: share.default(0.5).meta({
      description:
        'a cause explains an answer that it brings at least this share as often as the cause that brings it most often',
    }),
    'likely-pair': share.default(0.05).meta({
      description:
        'two causes together are an explanation of two answers where they are at least this likely',
    }),
  }),
  advice: z.strictObject({
    'trial-cost': z.number().min(0),
    'minute-cost': z.number().min(0),
    'upset-when-right': share,
    'repair-first': share,
    'measured-first': share.default(0.5),
    'low-on-high': share,
    'high-on-low': share,
    'one-knob': share.default(0.7),
    'by-the-sheet': z
      .strictObject({
        beyond: z.number().min(0),
        share,
        range: share,
        edge: share.default(0),
        uncounted: z.number().min(1).default(4).meta({
          description: 'clicks that are the most at once of a knob whose clicks nobody counted',
        }),
      })
      .optional()
      .meta({
        description:
          "a knob that stands more than this many clicks from the maker's figure goes this share of the way there at once, and at most this share of its range; without such a figure, and within the last share of its range from a stop, the same toward the middle; a tyre goes to its target",
      }),
    'should-fix': share.default(0.7).meta({
      description:
        'how much of a complaint its first change must cure, and how likely its cause must be, to be promised',
    }),
    'may-help': share.default(0.2).meta({
      description: 'the same, to be said to help; what cures less of one is not named for it',
    }),
    'may-try': share.default(0.15).meta({
      description:
        'a step is named for a complaint beside the first only if it cures anything as likely as this',
    }),
    'felt-first': share.default(0.5).meta({
      description:
        'a step for what was felt on the ride goes before one for what a gauge found if it cures anything as likely as this',
    }),
    'try-again': share.default(0.25).meta({
      description:
        'what the rider tried and said it made it worse is named again only if it cures anything as likely as this',
    }),
    'against-test': z.strictObject({ likely: share, share }).default({ likely: 0.5, share: 0.5 }).meta({
      description:
        'where a step that a trial found no better is still as likely to cure anything as the first, a step less likely than the second share of that is not named',
    }),
    'warn-likely': share.default(0.5).meta({
      description:
        'from this probability on the caution of a cause (while-likely) is said, whatever comes first; causes of one caution count together',
    }),
    'put-back': share.default(0.5).meta({
      description:
        'what made it worse and is still on is put back first unless that is less likely to cure it than this share of the best step',
    }),
    'near-most': share.default(0.9).meta({
      description:
        'from this share of the most an air spring may hold, the most is named beside a step that wants more',
    }),
    'least-cure': share
      .default(0.05)
      .meta({ description: 'an adjustment that cures anything with less than this is not named' }),
    'rung-cure': share.default(0.25).meta({
      description: 'a next rung that cures less than this is passed over for the one after it',
    }),
    'likely-repair': share.default(0.5).meta({
      description: 'less than this behind a danger is a guess, and no repair is named for it',
    }),
    'clear-end': z.number().min(1).default(2).meta({
      description:
        'a repair behind a danger is named for an end where it is so many times as likely as the same at the other',
    }),
    'chief-cure': share.default(0.5).meta({
      description:
        'below this share of what an adjustment cures most, a cause is only helped along, and is not what it is for',
    }),
    'air-at-once': share.default(0.2).meta({
      description: 'an air spring is let down or pumped up by at most this share of its pressure at once',
    }),
    'air-part': share.default(0.5).meta({
      description:
        'how much of what a told sag asks for goes in or out at once, where no sheet says more of the spring',
    }),
  }),
  'further-answer': share.default(0.5).meta({
    description:
      'how much each further answer to one question counts: 0 nothing, 1 as one to another question',
  }),
  sheet: z.strictObject({ clicks: reading, sag: reading, tyre: reading }),
  results: z.strictObject({
    helped: z.strictObject({ better: share, same: share, worse: share }),
    nothing: z.strictObject({ better: share, same: share, worse: share }),
    harmed: z.strictObject({ better: share, same: share, worse: share }),
    'one-step': share,
  }),
  none: z.strictObject({
    prior: share.meta({ description: 'chance that what is off is none of the causes' }),
    signs: share.meta({ description: 'how often it brings any sign that is remembered or ridden' }),
  }),
  'one-impression': z.strictObject({
    prior: share.meta({ description: 'chance that a rider answers everything from one impression' }),
    bound: share.meta({ description: 'how many of the remembered and ridden answers follow it' }),
    of: z.string().meta({ description: 'the question whose signs are the impressions a rider may have' }),
  }),
  following: z.strictObject({
    prior: share.meta({ description: 'chance that a rider follows his complaint' }),
    share: share.meta({ description: 'how many of his other answers are given in its sense' }),
  }),
  rider: z.strictObject({
    spread: z.number().min(0).max(2).meta({
      description:
        'how far riders differ in naming signs: standard deviation of their base rates in log odds',
    }),
    from: z.int().min(1).meta({ description: 'earlier interviews from which on a rider is known' }),
    least: z.number().min(0).meta({ description: 'a smaller shift, log odds, is neither counted nor said' }),
    stays: z.number().min(0).max(1).meta({
      description: 'chance that the bike of an interview is as the trials after the last one left it',
    }),
  }),
  tried: z.strictObject({
    doubt: share.meta({
      description:
        'chance that a report of something tried before says nothing: not planned, often not alone',
    }),
    lasts: share.meta({
      description: 'chance that what it helped was mended for good, where it is still on the bike',
    }),
    upsets: share.meta({ description: 'chance that moving a setting that was right put it off for good' }),
    'still-on': z
      .strictObject({ better: share, same: share, worse: share, 'not-sure': share })
      .meta({ description: 'chance that it is still on the bike where nobody said, by what it did' }),
  }),
  trial: z.strictObject({
    points: z.strictObject({ helped: normal, nothing: normal, harmed: normal }).meta({
      description: '[mean, standard deviation] of what a change does to the ratings, by what it really did',
    }),
    misled: share.meta({ description: 'how often a whole trial measures something else' }),
    open: normal.meta({
      description:
        '[mean, standard deviation] of what a rider adds who knows which setting was advised, points',
    }),
    unadvised: z
      .strictObject({ helps: share, harms: share })
      .meta({ description: 'what is expected of a change that nobody advised' }),
    'most-helps': share.meta({ description: 'a trial believes its diagnosis this far at most' }),
  }),
});

export type Numbers = z.infer<typeof numbers>;
