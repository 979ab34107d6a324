/** The evidence of a pit sheet: a row an answer, its weight as a bar, a number and words. */
import { html, type Markup } from './markup.ts';
import type { PitSheet } from './pit-sheet.ts';
import { barReach, weightBar } from './svg-bars.ts';

export function whySection({ why }: PitSheet): Markup | null {
  if (why === null) return null;
  const reach = barReach(why.weights.map((w) => w.decibans));
  return html`<section>
    <h2>${why.heading}</h2>
    <p>
      <strong>${why.cause}</strong>: ${why.before} before anything was asked, ${why.now} now. Besides:
      ${why.others.join(', ')}.
    </p>
    ${
      why.weights.length > 0 &&
      html`<table class="weights">
        <thead>
          <tr>
            <th scope="col">What was answered</th>
            <th scope="col">against | for</th>
            <th scope="col">which makes it</th>
          </tr>
        </thead>
        <tbody>
          ${why.weights.map(
            (w) =>
              html`<tr>
                <th scope="row">${w.question} <span class="answer">${w.answer}</span></th>
                <td class="bar">${weightBar(w.decibans, reach)}</td>
                <td><span class="number">${w.number}</span> ${w.words}</td>
              </tr>`,
          )}
        </tbody>
      </table>`
    }
    ${why.rest !== null && html`<p class="quiet small">${why.rest}</p>`}
  </section>`;
}

export function evidenceNote(): Markup {
  return html`<p>
    dB are decibans: 10 make a cause ten times as likely against the rest, 3 twice. A full bar speaks for it,
    a dashed one against.
  </p>`;
}
