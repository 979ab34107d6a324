/** Where everything on a bike stands, where the maker starts, and how far each thing still goes: rows for a table. */
import { defined } from '../bike/defined.ts';
import { dialOf } from '../bike/dial.ts';
import type { ChangeUnit } from '../bike/change.ts';
import { CIRCUITS, ENDS, type BikeSheet, type Circuit, type End } from '../bike/sheet.ts';
import { inPercent, inUnit, siPer, type Unit } from '../bike/units.ts';

export interface SheetRow {
  /** absent for the whole bike */
  readonly end?: End;
  readonly setting: string;
  readonly name: string;
  /** in `unit`; absent when nobody wrote it down */
  readonly now?: number;
  readonly unit: string;
  /** how far it goes at all, for what goes by clicks or spacers */
  readonly of?: number;
  /** the maker's starting sheet, or what is wanted */
  readonly maker?: number;
  readonly wanted?: number;
  /** how far it can go down (or closed) and up (or open) from where it stands, in `unit` */
  readonly down?: number;
  readonly up?: number;
}

export const CIRCUIT_NAMES: Readonly<Record<Circuit, string>> = {
  'rebound.low': 'Rebound, low speed',
  'rebound.high': 'Rebound, high speed',
  'compression.low': 'Compression, low speed',
  'compression.high': 'Compression, high speed',
};

type Named = 'setting' | 'name' | 'unit';
type Row = Pick<SheetRow, Named> & { [K in Exclude<keyof SheetRow, Named>]: SheetRow[K] | undefined };

export function sheetRows(sheet: BikeSheet): SheetRow[] {
  const { units, cockpit } = sheet;
  const pressure = (si: number | undefined) => shown(si, units.pressure);
  const rows: Row[] = ENDS.flatMap((end): Row[] => {
    const { spring, adjusters, tyre, sagMeasured, sagWanted, travelUsed } = sheet.ends[end];
    const knobs = CIRCUITS.flatMap((circuit): Row[] => {
      const knob = adjusters[circuit];
      if (knob === undefined) return [];
      const { now, maker, range } = knob;
      const setting = `${end}.${circuit}`;
      return [{ ...none, end, setting, name: CIRCUIT_NAMES[circuit], now, unit: 'clicks', of: range, maker }];
    });
    const springs: Row[] =
      spring.kind === 'air'
        ? [
            {
              ...none,
              end,
              setting: `${end}.spring`,
              name: 'Air spring',
              now: pressure(spring.pressure),
              unit: units.pressure,
              maker: pressure(spring.pressureMaker),
            },
            {
              ...none,
              end,
              setting: `${end}.ramp-up`,
              name: 'Volume spacers',
              now: spring.spacers,
              unit: 'spacers',
              of: spring.spacersMax,
            },
          ]
        : [
            {
              ...none,
              end,
              setting: `${end}.spring`,
              name: 'Coil spring',
              now: shown(spring.rate, units.rate),
              unit: units.rate,
            },
            {
              ...none,
              end,
              setting: `${end}.spring`,
              name: 'Preload',
              now: shown(spring.preload, units.length),
              unit: units.length,
              of: shown(spring.preloadMax, units.length),
            },
          ];
    return [
      ...springs,
      ...knobs,
      {
        ...none,
        end,
        setting: `${end}.sag`,
        name: 'Sag',
        now: percent(sagMeasured),
        unit: '%',
        wanted: percent(sagWanted),
      },
      {
        ...none,
        end,
        setting: `${end}.travel-used`,
        name: 'Travel used',
        now: percent(travelUsed),
        unit: '%',
      },
      {
        ...none,
        end,
        setting: `${end}.tyre`,
        name: 'Tyre',
        now: pressure(tyre?.now),
        unit: units.pressure,
        wanted: pressure(tyre?.wanted),
      },
    ];
  });
  const stem = shown(cockpit?.spacersUnderStem, units.length);
  rows.push({ ...none, setting: 'bars', name: 'Spacers under the stem', now: stem, unit: units.length });
  return rows.map((row) => defined<SheetRow>({ ...row, ...room(sheet, row) }));
}

const none: Omit<Row, Named> = {
  end: undefined,
  now: undefined,
  of: undefined,
  maker: undefined,
  wanted: undefined,
  down: undefined,
  up: undefined,
};

/** Only what the bike or its maker limits: what no bike goes beyond is no room to speak of. */
function room(sheet: BikeSheet, { setting, unit, now }: Row): { down?: number; up?: number } {
  if (now === undefined || unit === '%') return {};
  const dial = dialOf(sheet, { setting, unit: unit as ChangeUnit });
  if ('message' in dial || dial.now === undefined) return {};
  const round = (value: number): number =>
    unit === 'clicks' || unit === 'spacers' ? value : inUnit(value * siPer(unit as Unit), unit as Unit);
  return {
    ...(LIMITED.test(dial.minIs) ? { down: Math.max(0, round(dial.now - dial.min)) } : {}),
    ...(LIMITED.test(dial.maxIs) ? { up: Math.max(0, round(dial.max - dial.now)) } : {}),
  };
}

const LIMITED = /maker|stop|none|no preload|no spacer|as many/;

function shown(si: number | undefined, unit: Unit): number | undefined {
  return si === undefined ? undefined : inUnit(si, unit);
}

function percent(share: number | undefined): number | undefined {
  return share === undefined ? undefined : inPercent(share);
}
