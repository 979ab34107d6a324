/**
 * How many questions an interview asks of a rider who knows only what the report says: at the opening the rider tells it in
 * his own words and confirms what of it is read right; all that the report is silent about is "can't tell". After four of those in a row the interview offers to stop, and
 * this rider takes the offer; the safety questions are looked at and found in order.
 */
import { readFileSync } from 'node:fs';
import { prepareBike } from '../../../src/advice/prepared-bike.ts';
import { consult } from '../../../src/casework/consult.ts';
import type { CaseAnswer } from '../../../src/casework/case.ts';
import { buildModel } from '../../../src/diagnosis/model.ts';
import type { CompiledRules } from '../../../src/rulebase/compiled.ts';
import { buildMatcher } from '../../../src/words/matcher.ts';
import { listOf, namesOfCauses, reports, score, written } from './score.ts';

/** A rider is let go after so many answers in a row that he cannot give. */
const GIVES_UP = 4;

export function replay(writer: string): { asked: number[]; first: number; three: number; n: number } {
  const part = (file: string): object => JSON.parse(readFileSync(`dist/rules/${file}`, 'utf8')) as object;
  const rules = { ...part('base.json'), ...part('base.rare.json') } as CompiledRules;
  const model = buildModel(rules);
  const bench = prepareBike(model);
  const matcher = buildMatcher(rules);
  const names = namesOfCauses();
  const byId = new Map(written(writer).map((w) => [w.id, w.answers ?? {}]));
  const asked: number[] = [];
  let first = 0;
  let three = 0;
  const core = reports().filter((r) => r.tier === 'core');
  for (const report of core) {
    const known = byId.get(report.id)!;
    const of = (id: string): CaseAnswer => {
      const given = known[id] ?? known[id.replace(/@(front|rear)$/, '@either')];
      if (given === undefined) {
        const q = rules.questions[model.questionIndex.get(id)!]!;
        return { question: id, answer: q.safety ? q.answers[q.default]!.id : 'cannot-tell', sure: 'sure' };
      }
      const [own, ...also] = listOf(given);
      const all = own === undefined ? [] : [own.answer, ...also.map(({ answer }) => answer)];
      return {
        question: id,
        answer: all[0]!,
        ...(all.length > 1 ? { also: all.slice(1) } : {}),
        sure: own!.sure,
      };
    };
    const answers: CaseAnswer[] = known['complaint'] === undefined ? [] : [of('complaint')];
    for (const { question, answer } of report.told
      .flatMap((line) => matcher.match(line))
      .flatMap((r) => [...r.candidates, ...(r.couldShow ?? [])]))
      if (!answers.some((a) => a.question === question) && model.questionIndex.has(question)) {
        const own = of(question);
        if (own.answer === answer) answers.push(own);
      }
    const opened = answers.length;
    let silent = 0;
    let lastTopic: string | undefined;
    for (;;) {
      const c = consult(
        model,
        bench,
        { id: report.id, answers, results: [], earlier: [] },
        { next: true, explain: 0, fit: false, lastTopic },
      );
      const top = c.open[0];
      if (c.stop !== undefined || top === undefined || silent >= GIVES_UP) {
        asked.push(answers.length - opened);
        const s = score(
          report,
          c.ranked.map((i) => names.get(rules.causes[i]!.id) ?? []),
        );
        if (s.first) first++;
        if (s.three) three++;
        break;
      }
      const question = rules.questions[top.question]!;
      const answer = of(question.id);
      answers.push(answer);
      silent = answer.answer === 'cannot-tell' ? silent + 1 : 0;
      lastTopic = question.topic;
    }
  }
  return { asked: asked.sort((a, b) => a - b), first, three, n: core.length };
}
