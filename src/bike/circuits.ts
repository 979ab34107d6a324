/** The knobs of a damper itself: the rows of the settings table that the physics reaches by circuit. */

/** What was read off a ring on the shaft, as the file form names it. It belongs to the spring it was read with. */
export type Reading = keyof typeof READINGS;
/** each reading, and where the sheet keeps it */
export const READINGS = { 'sag.measured': 'sagMeasured', 'travel-used': 'travelUsed' } as const;

interface DamperRow {
  readonly words: string;
  /** in a table, below the heading of its end */
  readonly title: string;
  /** the readings that are no longer true once it is turned */
  readonly stale: readonly Reading[];
  /** what it is called where it is the only knob of its pair, and acts on both circuits */
  readonly alone?: { readonly words: string; readonly title: string };
}

const rows = {
  'rebound.low': {
    words: 'low-speed rebound',
    title: 'Rebound, low speed',
    stale: [],
    alone: { words: 'rebound', title: 'Rebound' },
  },
  'rebound.high': {
    words: 'high-speed rebound',
    title: 'Rebound, high speed',
    stale: [],
  },
  'compression.low': {
    words: 'low-speed compression',
    title: 'Compression, low speed',
    stale: ['travel-used'],
  },
  'compression.high': {
    words: 'high-speed compression',
    title: 'Compression, high speed',
    stale: ['travel-used'],
  },
} as const satisfies Record<string, DamperRow>;

/** The four damper circuits an end can have a knob for. */
export type Circuit = keyof typeof rows;
export const DAMPER: Readonly<Record<Circuit, DamperRow>> = rows;
export const CIRCUITS = Object.keys(rows) as readonly Circuit[];

/** The sides of a damper, as the file form groups its knobs, and the circuits of each. */
export const SIDES = [...new Set(CIRCUITS.map(sideOf))].map((side) => ({
  side,
  circuits: CIRCUITS.filter((circuit) => sideOf(circuit) === side),
}));

export type Side = 'rebound' | 'compression';

export function sideOf(circuit: Circuit): Side {
  return circuit.slice(0, circuit.indexOf('.')) as Side;
}

/** `low` or `high`: its key below its side. */
export function speedOf(circuit: Circuit): 'low' | 'high' {
  return circuit.slice(circuit.indexOf('.') + 1) as 'low' | 'high';
}

/** The other knob of the pair. */
export function partnerOf(circuit: Circuit): Circuit {
  return CIRCUITS.find((other) => other !== circuit && sideOf(other) === sideOf(circuit))!;
}
