/** The trial of a pit sheet: a row a run, with boxes to fill by pen. */
import { html, type Markup } from './markup.ts';
import { capital } from '../../form/text.ts';
import { trialLines, type PaperTrial } from './trial.ts';
import type { PitSheet } from './pit-sheet.ts';

export function trialSection({ trial }: PitSheet): Markup | null {
  if (trial === null) return null;
  return html`<section>
    <h2>The trial</h2>
    ${trial.can ? runs(trial) : html`<p>${trial.why}</p>`}
    <p class="boxes">
      <span>Afterwards:</span
      >${['better', 'same', 'worse', 'cannot tell', 'kept', 'put back'].map((word) => html`<span class="box">${word}</span>`)}
    </p>
  </section>`;
}

type Runs = Extract<PaperTrial, { can: true }>;

function runs(trial: Runs): Markup {
  const { pen, relative, name } = trial;
  const letters = pen.feelings.map((_, i) => String.fromCodePoint(65 + i));
  return html`<p class="start">Date</p>
    ${relative && html`<p class="start">Start is at</p>`}
    <table class="runs">
      <caption>
        ${capital(name)}, ${pen.unit}${pen.unit === 'clicks' && ' from closed'}. Rate 1 to 7, 7 is the good
        end. Time only if you take it.
      </caption>
      <thead>
        <tr>
          <th scope="col">Run</th>
          ${letters.map((letter, i) => html`<th scope="col" class="rate" aria-label="${letter}, ${pen.feelings[i]!.ask}">${letter}</th>`)}
          <th scope="col" class="time">Time</th>
          <th scope="col" class="remark">Remarks</th>
        </tr>
      </thead>
      <tbody>
        ${pen.rows.map(
          ({ run }) =>
            html`<tr>
              <th scope="row">${run}</th>
              ${letters.map(() => html`<td class="rate"></td>`)}
              <td class="time"></td>
              <td class="remark"></td>
            </tr>`,
        )}
      </tbody>
    </table>
    <p class="small">
      ${pen.feelings.map((f, i) => html`${i > 0 && ' '}<strong>${letters[i]}</strong> ${f.ask}: 1 ${f.low}, 7 ${f.high}.`)}
    </p>
    <ul class="small">
      ${trialLines(trial).map((line) => html`<li>${line}</li>`)}
    </ul>`;
}
