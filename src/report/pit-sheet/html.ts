/** A pit sheet as one self-contained page: no script, no network, readable on a phone, printed on one page. */
import { ENDS } from '../../bike/sheet.ts';
import { linesOf } from './cut-list.ts';
import { glued } from '../glued.ts';
import { html, markupText, styleElement, type Markup } from './markup.ts';
import { capital } from '../../form/text.ts';
import { whySection, evidenceNote } from './why.ts';
import type { PitSheet } from './pit-sheet.ts';
import type { Drawing } from './physics.ts';
import { COUNTED, type SettingRow, type Stand } from './settings.ts';
import type { Column } from './heights.ts';
import { fitToPage } from './room.ts';
import { CSS, sizeClass } from './style.ts';
import { trialSection } from './trial-html.ts';
import { linePlot } from '../plots/svg-plot.ts';

/** @param hash SHA-256 of a text in UTF-8, in base64: the page allows its own style sheet and nothing else */
export function pitSheetHtml(whole: PitSheet, hash: (text: string) => string): string {
  const { sheet, size, places, lines } = fitToPage(whole);
  const movable = (column: Column): Markup =>
    html`${places.list === column && listSection(sheet)}${places.waiting === column && waitingSection(sheet)}`;
  const policy = `default-src 'none'; style-src 'sha256-${hash(CSS)}'; img-src data:; base-uri 'none'; form-action 'none'`;
  const body = html`<div class="card">
    ${header(sheet)}${alarmSection(sheet)}
    <main class="columns">
      <div>
        ${firstSection(sheet)}${cautionSection(sheet)}${places.why === 'left' && whySection(sheet)}${trialSection(sheet)}${movable('left')}
      </div>
      <div class="side">
        ${settingSection(sheet.settings)}${physicsSection(sheet)}${places.why === 'right' && whySection(sheet)}${movable('right')}
      </div>
    </main>
    ${notesSection(lines)}${footer(sheet)}
  </div>`;
  const page = html`<!doctype html>
    <html lang="en" class="${sizeClass(size)}">
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

function alarmSection({ alarms }: PitSheet): Markup | null {
  if (alarms.length === 0) return null;
  return html`<section class="alarms">${alarms.map((alarm) => html`<p>${glued(alarm)}</p>`)}</section>`;
}

function firstSection(sheet: PitSheet): Markup {
  const heading = { change: 'Do this first', leave: 'Result', unknown: 'Result', stop: 'Stop' }[
    sheet.verdict
  ];
  return html`<section class="first${sheet.verdict === 'stop' && ' stop'}">
    <h2>${heading}</h2>
    <p class="do">${sheet.headline}</p>
    ${sheet.about.map((text) => html`<p>${glued(text)}</p>`)}
    ${
      sheet.first.length > 0 &&
      html`<dl class="facts">
        ${sheet.first.map(
          ([label, text]) =>
            html`<dt>${label}</dt>
              <dd>${glued(text)}</dd>`,
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
  const told = linesOf(notes);
  if (cautions.length + told.length === 0) return null;
  return html`<section>
    <h2>Cautions</h2>
    <ul class="cautions">
      ${cautions.map(({ level, text }) => html`<li class="${LEVELS[level].sign}"><span class="level">${LEVELS[level].word}:</span> ${text}</li>`)}${told.map((text) => html`<li class="note"><span class="level">About this sheet:</span> ${text}</li>`)}
    </ul>
  </section>`;
}

/** One column an end, or before and after where something of it changes. */
function settingSection(rows: readonly SettingRow[]): Markup {
  const moved = new Set(ENDS.filter((end) => rows.some(({ cells }) => cells[end].changed)));
  const deep = moved.size > 0 ? 2 : 1;
  return html`<section>
    <h2>${moved.size > 0 ? 'Settings, before and after' : 'Settings'}</h2>
    <table class="settings">
      <caption>
        ${COUNTED}${moved.size > 0 && ' A value across both columns stays as it is.'}
      </caption>
      <colgroup></colgroup>
      ${ENDS.map((end) => html`<colgroup span="${moved.has(end) ? 2 : 1}"></colgroup>`)}
      <thead>
        <tr>
          <th scope="col" rowspan="${deep}">Setting</th>
          ${ENDS.map((end) =>
            moved.has(end)
              ? html`<th scope="colgroup" colspan="2">${capital(end)}</th>`
              : html`<th scope="col" rowspan="${deep}">${capital(end)}</th>`,
          )}
        </tr>
        ${
          moved.size > 0 &&
          html`<tr>
            ${[...moved].map(
              () =>
                html`<th scope="col">before</th>
                  <th scope="col">after</th>`,
            )}
          </tr>`
        }
      </thead>
      <tbody>
        ${rows.map(
          ({ name, cells }) =>
            html`<tr>
              <th scope="row">${name}</th>
              ${ENDS.map((end) => (moved.has(end) ? pair(cells[end]) : stand(cells[end].before)))}
            </tr>`,
        )}
      </tbody>
    </table>
  </section>`;
}

/** Before and after; one cell across both where nothing changes. */
function pair({ before, after, changed }: SettingRow['cells']['front']): Markup {
  return changed ? html`${stand(before)}${stand(after, { changed })}` : stand(before, { columns: 2 });
}

function stand(value: Stand, { changed = false, columns = 1 } = {}): Markup {
  const cell = (kind: string | false, text: string): Markup =>
    html`<td class="${kind}" ${columns > 1 && html` colspan="${columns}"`}>${text}</td>`;
  switch (value.is) {
    case 'known':
      return cell(`${changed ? 'changed' : ''}${value.text.length > 10 ? ' long' : ''}`, value.text);
    case 'none':
      return cell('quiet', value.text);
    case 'again':
      return cell('blank quiet small', 'measure again');
    case 'blank':
      return cell('blank', '');
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
        ${knockOn.map((text) => html`<li>${glued(text)}</li>`)}
      </ul>`
    }
    ${drawings.map((d, i) => drawing(d, `plot-${i}`))}
    ${undrawn !== null && html`<p class="quiet small">${undrawn}</p>`}
    ${drawings.length > 0 && html`<p class="quiet small">These lines and numbers come from a model of this bike, not from a measurement. Trust which way they move more than how far.</p>`}
  </section>`;
}

function drawing(d: Drawing, id: string): Markup {
  return html`<figure>
    <h3>${d.title}</h3>
    ${linePlot({ ...d, id, says: d.says.join(' ') })}
    <figcaption>${glued(d.says.join(' '))}</figcaption>
  </figure>`;
}

function listSection({ ridersList: { lines, more } }: PitSheet): Markup | null {
  if (lines.length === 0) return null;
  return html`<section>
    <h2>To check next</h2>
    <ol class="write small">
      ${lines.map((text) => html`<li>${text}<span class="line-to-write"></span></li>`)}
    </ol>
    ${more > 0 && html`<p class="small">And ${more} more in the case.</p>`}
  </section>`;
}

function waitingSection({ waiting }: PitSheet): Markup | null {
  if (waiting.length === 0) return null;
  return html`<section>
    <h2>If that doesn’t fix it</h2>
    <ol class="small">
      ${waiting.map((text) => html`<li>${glued(text)}</li>`)}
    </ol>
  </section>`;
}

/** What is left of the page, ruled; on a screen there is nothing to write on. */
function notesSection(lines: number): Markup | null {
  if (lines === 0) return null;
  return html`<section class="notes">
    <h2>Notes</h2>
    ${Array.from({ length: lines }, () => html`<p class="line-to-write"></p>`)}
  </section>`;
}

function footer(sheet: PitSheet): Markup {
  return html`<footer>
    ${sheet.why !== null && sheet.why.weights.length > 0 && evidenceNote()}
    <p>Where the manufacturer’s manual disagrees with this sheet, the manual wins. Rules: ${sheet.rules}.</p>
  </footer>`;
}
