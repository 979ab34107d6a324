/** The trial of a pit sheet: a row a run, with boxes to fill by pen. */
import { html, type Markup } from './markup.ts';
import { setWords, turnWords, type PaperTrial } from './pit-sheet-trial.ts';
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

function runs({ pen, relative, name }: Extract<PaperTrial, { can: true }>): Markup {
  const letters = pen.feelings.map((_, i) => String.fromCodePoint(65 + i));
  return html`<table class="runs">
      <caption>
        ${name.slice(0, 1).toUpperCase()}${name.slice(1)},
        ${pen.unit}${pen.unit === 'clicks' && ' from closed'}. Rate 1 to 7, 7 is the good end. Time only if
        you take it.
      </caption>
      <thead>
        <tr>
          <th scope="col">Run</th>
          <th scope="col">Stands at</th>
          ${letters.map((letter) => html`<th scope="col" class="rate">${letter}</th>`)}
          <th scope="col" class="time">Time</th>
          <th scope="col" class="remark">Remarks</th>
        </tr>
      </thead>
      <tbody>
        ${pen.rows.map(
          (row) =>
            html`<tr>
              <th scope="row">${row.run}</th>
              <td>
                <strong>${setWords(row.set, relative)}</strong>
                <span class="quiet small">${turnWords(row.turn, pen.unit, row.arm === 'sham')}</span>
              </td>
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
      ${pen.extraSettling.atMost > 0 && html`<li>If the first two runs are rated more than ${pen.extraSettling.apart} apart on average, ride up to ${pen.extraSettling.atMost} more before the first change.</li>`}
      ${relative && html`<li>Nobody wrote down where it stands: count first, write it on the left, and never go past a stop.</li>`}
      ${pen.notes.map((note) => html`<li>${note}</li>`)}${pen.rules.map((rule) => html`<li>${rule}</li>`)}
    </ul>`;
}
