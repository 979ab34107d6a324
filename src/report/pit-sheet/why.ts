/** The evidence of a pit sheet: a row an answer, its weight as a bar, a number and words. */
import { glued } from '../glued.ts';
import { html, type Markup } from './markup.ts';
import { restOf, type Weight } from './evidence.ts';
import type { PitSheet } from './pit-sheet.ts';
import { barReach, weightBar } from '../plots/svg-bars.ts';

export function whySection({ why }: PitSheet): Markup | null {
  if (why === null) return null;
  const rest = restOf(why);
  const reach = barReach(why.weights.map((w) => w.decibans));
  return html`<section>
    <h2>${why.heading}</h2>
    <p>
      <strong>${why.cause}</strong>: ${glued(`${why.before} before the first question, ${why.now} now.`)} Also
      possible: ${glued(why.others.join(', '))}.
    </p>
    ${
      why.weights.length > 0 &&
      html`<ol class="weights">
        ${why.weights.slice(0, why.shown).map((w) => weightRow(w, reach))}
      </ol>`
    }
    ${rest !== null && html`<p class="quiet small">${rest}</p>`}
  </section>`;
}

function weightRow({ question, answer, decibans, number, words }: Weight, reach: number): Markup {
  return html`<li>
    <span>${question} <strong>${answer}</strong></span>
    <span class="weight"
      >${weightBar(decibans, reach)}<span class="number">${decibans < 0 ? 'against' : 'for'}, ${number}</span
      >: ${words}</span
    >
  </li>`;
}

export function evidenceNote(): Markup {
  return html`<p>
    dB are decibans: 10 make a cause ten times as likely against the rest, 3 twice. A full bar speaks for it,
    a dashed one against.
  </p>`;
}
