/**
 * Agresti, Categorical Data Analysis, 2nd ed., section 10.6, tables 10.10 and 10.11: baseball, 1987, home and away;
 * the data also in R's BradleyTerry2. The home team stands here for the run that came second.
 */
import { expect, test } from 'vitest';
import { fitPreference, type Comparison } from '../../src/trials/preference.ts';

const TEAMS = ['Mil', 'Det', 'Tor', 'NY', 'Bos', 'Cle', 'Bal'];
/** a row a home team, "home wins-away wins" against the others in order */
const HOME: Readonly<Record<string, string>> = {
  Mil: '4-3 4-2 4-3 6-1 4-2 6-0',
  Det: '3-3 4-2 4-3 6-0 6-1 4-3',
  Tor: '2-5 4-3 2-4 4-3 4-2 6-0',
  NY: '3-3 5-1 2-5 4-3 4-2 6-1',
  Bos: '5-1 2-5 3-3 4-2 5-2 6-0',
  Cle: '2-5 3-3 3-4 4-3 4-2 2-4',
  Bal: '2-5 1-5 1-6 2-4 1-6 3-4',
};

const games: Comparison[] = TEAMS.flatMap((home) => {
  const others = TEAMS.filter((team) => team !== home);
  return HOME[home]!.split(' ').map((cell, i) => {
    const [wins, losses] = cell.split('-').map(Number);
    return { first: others[i]!, second: home, secondWins: wins!, firstWins: losses! };
  });
});

test('without an order effect: abilities against Baltimore, deviance 44.0535', () => {
  const fit = fitPreference(games, { order: false })!;
  const published = { Mil: 1.5814, Det: 1.4364, Tor: 1.2945, NY: 1.2476, Bos: 1.1077, Cle: 0.6839 };
  for (const [team, ability] of Object.entries(published)) {
    expect(fit.ability[team]! - fit.ability['Bal']!).toBeCloseTo(ability, 4);
  }
  expect(fit.deviance).toBeCloseTo(44.0535, 4);
});

test('with it: 0.3023 for being at home, standard error 0.1309, deviance 38.6429', () => {
  const fit = fitPreference(games)!;
  expect(fit.order.estimate).toBeCloseTo(0.3023, 4);
  expect(fit.order.error).toBeCloseTo(0.1309, 4);
  expect(fit.deviance).toBeCloseTo(38.6429, 4);
});
