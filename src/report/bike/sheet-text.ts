/** A bike sheet as a table, and what its check found. */
import type { SheetCheck } from '../../bike/check/sheet-check.ts';
import { ENDS, type BikeSheet } from '../../bike/sheet.ts';
import { writeQuantity } from '../../bike/units.ts';
import { columns } from '../columns.ts';
import type { SheetRow } from './sheet-rows.ts';
import { page, type Style } from '../style.ts';
import { foldCommand, paragraph } from '../wrap.ts';

const WIDTHS = [26, 14, 16];

export function sheetShown(sheet: BikeSheet, rows: readonly SheetRow[], style: Style): string {
  const lines = [style.strong(`${sheet.name ?? sheet.id} (${sheet.id}), ${sheet.kind}`)];
  lines.push(paragraph(about(sheet), style.width));
  for (const end of ENDS) {
    const { travel, stroke, rigid } = sheet.ends[end];
    const at =
      rigid === true
        ? `${end}, no suspension`
        : travel === 0
          ? `${end}, travel not known`
          : `${end} ${writeQuantity(travel, sheet.units.length)}`;
    const head = stroke === undefined ? at : `${at}, shock ${writeQuantity(stroke, sheet.units.length)}`;
    lines.push('', style.strong(columns([head, 'now', 'start', 'room left'], WIDTHS)));
    lines.push(...rows.filter((row) => row.end === end).map(rowText));
    const { note } = sheet.ends[end];
    if (note !== undefined) lines.push(paragraph(note, style.width, '  '));
  }
  const whole = rows.filter((row) => row.end === undefined && row.now !== undefined);
  const lever = sheet.cockpit?.leverAngle;
  if (whole.length > 0 || lever !== undefined) {
    lines.push('', style.strong('cockpit'), ...whole.map(rowText));
    if (lever !== undefined)
      lines.push(columns(['  Brake levers', `${lever} degrees below horizontal`], WIDTHS));
  }
  if (sheet.changed !== undefined && sheet.changed.length > 0) {
    lines.push('', style.strong('changed lately'));
    for (const { what, when } of sheet.changed)
      lines.push(paragraph(what, style.width, `  ${(when ?? 'no date').padEnd(10)}  `));
  }
  if (sheet.note !== undefined) lines.push('', paragraph(sheet.note, style.width));
  lines.push(
    '',
    style.quiet(
      paragraph("Clicks from fully closed. Start: manufacturer's setting, or your target (w).", style.width),
    ),
  );
  return page(lines, style);
}

function about({ riderMass, bikeMass, geometry, units }: BikeSheet): string {
  const said = [
    riderMass === undefined
      ? 'rider in kit: not weighed'
      : `rider in kit ${writeQuantity(riderMass, units.mass)}`,
  ];
  if (bikeMass !== undefined) said.push(`bike ${writeQuantity(bikeMass, units.mass)}`);
  if (geometry?.wheelbase !== undefined)
    said.push(`wheelbase ${writeQuantity(geometry.wheelbase, units.length)}`);
  if (geometry?.headAngle !== undefined) said.push(`head angle ${geometry.headAngle} degrees`);
  return said.join(', ');
}

function rowText({ name, now, unit, position, of, maker, wanted, down, up }: SheetRow): string {
  if (unit === 'positions') return columns([`  ${name}`, position ?? '?'], WIDTHS);
  const counted = unit === 'clicks' || unit === 'spacers';
  const behind = counted ? '' : ` ${unit}`;
  const value = now === undefined ? '?' : `${now}${behind}${of === undefined ? '' : ` of ${of}${behind}`}`;
  const start =
    maker !== undefined ? `${maker}${behind}` : wanted !== undefined ? `${wanted}${behind} (w)` : '';
  const [less, more] =
    unit === 'clicks' ? ['closing', 'opening'] : unit === 'spacers' ? ['out', 'in'] : ['down', 'up'];
  const left = [
    ...(down === undefined ? [] : [`${down} ${less}`]),
    ...(up === undefined ? [] : [`${up} ${more}`]),
  ];
  return columns([`  ${name}`, value, start, left.join(', ')], WIDTHS);
}

/**
 * @param problems what the reader of the file had to say, a line each
 * @param line the command that writes down what was counted
 */
export function checkText(
  name: string,
  found: readonly SheetCheck[],
  problems: readonly string[],
  style: Style,
  line: (writeDown: string) => string,
): string {
  const lines = [style.strong(`Check of ${name}`)];
  if (problems.length > 0)
    lines.push('', style.strong('In the file'), ...problems.map((p) => paragraph(p, style.width, '  ')));
  for (const [severity, head] of [
    ['check', 'Check before riding'],
    ['missing', 'Still to write down'],
    ['note', 'Worth knowing'],
  ] as const) {
    const some = found.filter((one) => one.severity === severity);
    if (some.length === 0) continue;
    lines.push('', severity === 'check' ? style.warn(head) : style.strong(head));
    for (const { end, message, todo, writeDown } of some) {
      lines.push(paragraph(`${end === undefined ? '' : `${end}: `}${message}.`, style.width, '  ', '    '));
      lines.push(style.quiet(paragraph(todo, style.width, '    ')));
      if (writeDown !== undefined)
        lines.push(style.quiet(foldCommand(line(writeDown), style.width, '      ')));
    }
  }
  if (lines.length === 1) lines.push('', 'Nothing is missing and nothing disagrees.');
  return page(lines, style);
}
