import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';

// Mosteller & Youtz, "Quantifying Probabilistic Expressions", Statistical Science 5(1), 1990, 2–12, Table 2, medians in
// percent; taken second-hand, compared over three copies in public repositories.
const MEDIANS: Record<string, number> = {
  always: 99.7,
  certain: 99.6,
  'almost always': 91.7,
  'almost certain': 90.2,
  'very likely': 87.5,
  'very often': 82.8,
  'very frequent': 82.6,
  usually: 75.1,
  often: 72.5,
  frequent: 72.2,
  likely: 71.1,
  probable: 70.2,
  'more often than not': 59.8,
  'as often as not': 50.0,
  'less often than not': 40.0,
  possible: 38.5,
  'might happen': 37.6,
  sometimes: 25.0,
  occasionally: 20.0,
  'not often': 19.7,
  unlikely: 17.2,
  'once in a while': 15.3,
  'now and then': 15.1,
  improbable: 12.5,
  seldom: 10.2,
  'not very often': 10.1,
  rarely: 7.2,
  'very unlikely': 5.0,
  'very seldom': 4.9,
  'very rarely': 3.0,
  'almost never': 2.9,
  never: 0.3,
};

describe('the word scale of the base pack', () => {
  const scale = (
    parse(readFileSync('rules/base/pack.yaml', 'utf8')) as {
      'word-scale': { percent: Record<string, number> };
    }
  )['word-scale'].percent;
  it('is the published table of medians, word for word', () => expect(scale).toEqual(MEDIANS));
});
