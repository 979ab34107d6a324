/** A pit sheet as one self-contained page: no script, no network, readable on a phone, printed on one page. */
import { html, markupText, styleElement, type Markup } from './markup.ts';
import { whySection, evidenceNote } from './pit-sheet-why.ts';
import type { PitSheet } from './pit-sheet.ts';
import type { Drawing } from './pit-sheet-physics.ts';
import type { SettingRow, Stand } from './pit-sheet-settings.ts';
import { fitToPage } from './pit-sheet-room.ts';
import { CSS } from './pit-sheet-style.ts';
import { trialSection } from './pit-sheet-trial-html.ts';
import { linePlot } from './svg-plot.ts';

/** @param hash SHA-256 of a text in UTF-8, in base64: the page allows its own style sheet and nothing else */
export function pitSheetHtml(whole: PitSheet, hash: (text: string) => string): string {
  const { sheet, density } = fitToPage(whole);
  const policy = `default-src 'none'; style-src 'sha256-${hash(CSS)}'; img-src data:; base-uri 'none'; form-action 'none'`;
  const body = html`<div class="card">
    ${header(sheet)}
    <main class="columns">
      <div>
        ${firstSection(sheet)}${cautionSection(sheet)}${whySection(sheet)}${trialSection(sheet)}${waitingSection(sheet)}${sheet.trial === null && listSection(sheet)}
      </div>
      <div>
        ${settingSection(sheet.settings)}${physicsSection(sheet)}${sheet.trial !== null && listSection(sheet)}
      </div>
    </main>
    ${footer(sheet)}
  </div>`;
  const page = html`<!doctype html>
    <html lang="en" class="${density}">
      <head>
        <meta charset="utf-8" />
        <meta http-equiv="Content-Security-Policy" content="${policy}" />
        <meta name="viewport" content="width=device-width, initial-scale=1" />
        <meta name="color-scheme" content="light dark" />
        <meta name="referrer" content="no-referrer" />
        <title>Pit sheet: ${sheet.case}</title>
        <link rel="icon" href="data:," />
        ${styleElement(CSS)}
      </head>
      <body>
        ${body}
      </body>
    </html> `;
  return markupText(page);
}

function header(sheet: PitSheet): Markup {
  return html`<header>
    <p class="kind">Pit sheet</p>
    <h1><bdi>${sheet.case}</bdi>${sheet.bike !== null && html`, <bdi>${sheet.bike}</bdi>`}</h1>
    ${sheet.said !== null && html`<blockquote class="said">“<bdi>${sheet.said}</bdi>”</blockquote>`}
    <p class="pen">
      ${['Date', 'Rider', 'Track', 'Ground', 'Set by'].map((what) => html`<span>${what}</span>`)}
    </p>
  </header>`;
}

function firstSection(sheet: PitSheet): Markup {
  const heading = { change: 'Do this first', leave: 'Result', unknown: 'Result', stop: 'Stop' }[
    sheet.verdict
  ];
  return html`<section class="first${sheet.verdict === 'stop' && ' stop'}">
    <h2>${heading}</h2>
    <p class="do">${sheet.headline}</p>
    ${sheet.about.map((text) => html`<p>${text}</p>`)}
    ${
      sheet.first.length > 0 &&
      html`<dl class="facts">
        ${sheet.first.map(
          ([label, text]) =>
            html`<dt>${label}</dt>
              <dd>${text}</dd>`,
        )}
      </dl>`
    }
  </section>`;
}

const LEVELS = {
  stop: { word: 'Stop', sign: 'stop-level' },
  care: { word: 'Care', sign: 'care' },
  note: { word: 'Note', sign: 'note' },
} as const;

function cautionSection({ cautions, notes }: PitSheet): Markup | null {
  if (cautions.length + notes.length === 0) return null;
  return html`<section>
    <h2>Cautions</h2>
    <ul class="cautions">
      ${cautions.map(({ level, text }) => html`<li class="${LEVELS[level].sign}"><span class="level">${LEVELS[level].word}:</span> ${text}</li>`)}${notes.map((text) => html`<li class="note"><span class="level">About this sheet:</span> ${text}</li>`)}
    </ul>
  </section>`;
}

function settingSection(rows: readonly SettingRow[]): Markup {
  const changes = rows.some(({ cells }) => cells.front.changed || cells.rear.changed);
  return html`<section>
    <h2>${changes ? 'Settings, before and after' : 'Settings'}</h2>
    <table class="settings">
      <caption>
        Clicks count from fully closed. ${changes && 'A value across before and after stays. '}Empty: fill in.
      </caption>
      <thead>
        <tr>
          <th scope="col">Setting</th>
          ${['Front', 'Rear'].map((end) =>
            changes
              ? html`<th scope="col">${end} before</th>
                  <th scope="col">after</th>`
              : html`<th scope="col">${end}</th>`,
          )}
        </tr>
      </thead>
      <tbody>
        ${rows.map(
          ({ name, cells: { front, rear } }) =>
            html`<tr>
              <th scope="row">${name}</th>
              ${changes ? html`${pair(front)}${pair(rear)}` : html`${stand(front.before)}${stand(rear.before)}`}
            </tr>`,
        )}
      </tbody>
    </table>
  </section>`;
}

/** Before and after; one cell across both where nothing changes. */
function pair({ before, after, changed }: SettingRow['cells']['front']): Markup {
  if (changed) return html`${stand(before)}${stand(after, true)}`;
  if (before.is === 'blank') return html`${stand(before)}${stand(after)}`;
  return html`<td colspan="2" class="${before.is === 'none' && 'quiet'}">
    ${before.is !== 'again' && before.text}
  </td>`;
}

function stand(value: Stand, changed = false): Markup {
  switch (value.is) {
    case 'known':
      return html`<td class="${changed && 'changed'}${value.text.length > 10 && ' long'}">${value.text}</td>`;
    case 'none':
      return html`<td class="quiet">${value.text}</td>`;
    case 'again':
      return html`<td class="blank quiet small">measure again</td>`;
    case 'blank':
      return html`<td class="blank"></td>`;
  }
}

function physicsSection({ physics, undrawn, knockOn }: PitSheet): Markup | null {
  const drawings = physics === null ? [] : [physics.curve, physics.row].filter((d) => d !== undefined);
  if (drawings.length === 0 && knockOn.length === 0 && undrawn === null) return null;
  return html`<section>
    <h2>What else it does</h2>
    ${
      knockOn.length > 0 &&
      html`<ul class="small">
        ${knockOn.map((text) => html`<li>${text}</li>`)}
      </ul>`
    }
    ${drawings.map((d, i) => drawing(d, `plot-${i}`))}
    ${undrawn !== null && html`<p class="quiet small">${undrawn}</p>`}
    ${drawings.length > 0 && html`<p class="quiet small">Lines and numbers come from a model of this bike, not from a measurement: trust the way they move more than their size.</p>`}
  </section>`;
}

function drawing(d: Drawing, id: string): Markup {
  return html`<figure>
    <h3>${d.title}</h3>
    ${linePlot({ ...d, id, says: d.says.join(' ') })}
    <figcaption>${d.says.join(' ')}</figcaption>
  </figure>`;
}

function listSection({ ridersList }: PitSheet): Markup | null {
  if (ridersList.length === 0) return null;
  return html`<section>
    <h2>The rider’s list: find out, come back</h2>
    <ol class="write small">
      ${ridersList.map((text) => html`<li>${text}<span class="line-to-write"></span></li>`)}
    </ol>
  </section>`;
}

function waitingSection({ waiting }: PitSheet): Markup | null {
  if (waiting.length === 0) return null;
  return html`<section>
    <h2>Only if that is not it</h2>
    <ol class="small">
      ${waiting.map((text) => html`<li>${text}</li>`)}
    </ol>
  </section>`;
}

function footer(sheet: PitSheet): Markup {
  return html`<footer>
    ${sheet.why !== null && sheet.why.weights.length > 0 && evidenceNote()}
    <p>Where the maker’s manual disagrees with this sheet, the manual wins. Rules: ${sheet.rules}.</p>
  </footer>`;
}
