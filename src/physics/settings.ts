/**
 * What each setting is in the model: one table keyed by the setting's path behind its end (`rebound.low`, `spring`,
 * `ramp-up`, `tyre`, `condition`). It knows the setting's units, how an amount moves the model, how far the setting is
 * off when it is called a cause, and how it is moved for good by an adjustment.
 */
import type { Circuit, End } from '../bike/sheet.ts';
import { siPer, unitsOf, type Unit } from '../bike/units.ts';
import type { Bike, EndModel } from './bike/bike.ts';
import { turned } from './bike/damper.ts';
import { ADJUSTER_SPAN, clickRatio } from './defaults.ts';
import { tyreAt } from './bike/tyre.ts';

type Moved = { readonly ok: true; readonly end: EndModel } | { readonly ok: false; readonly why: string };

export interface SettingPhysics {
  /** units an amount may have; the first is the default */
  readonly units: readonly string[];
  /** the end after the setting moved by an amount; + = more open, more pressure, more spacers */
  move(end: EndModel, amount: number, unit: string): Moved;
  /** the end with the setting off in a direction, by how far such a setting usually is off; undefined = not this end */
  readonly off: Readonly<Record<string, (end: EndModel) => EndModel | undefined>>;
}

/** A circuit is called off at this share of its adjuster's whole range: four clicks of sixteen. Judgement. */
const CIRCUIT_OFF = 0.25;
/** Judgement: about twice what moves sag by a few percent. */
const SPRING_OFF = 1.15;
/** In spacers; judgement. */
const RAMP_OFF = 2;
const TYRE_OFF = 1.25; // judgement: 23 → 29 psi
/** Dry friction of worn or dirty seals against serviced ones; judgement: 40 N become 100 N. */
const WORN = 2.5;
/** Clicks that a circuit without a knob would have: to speak of it at all. */
const NO_KNOB_RANGE = 16;

export const SETTINGS: Readonly<Record<string, SettingPhysics>> = {
  'rebound.low': circuit('rebound', 'low'),
  'rebound.high': circuit('rebound', 'high'),
  'compression.low': circuit('compression', 'low'),
  'compression.high': circuit('compression', 'high'),
  spring: {
    units: ['psi', 'bar', 'kPa', 'N/mm', 'lb/in', 'turns', 'mm', 'in'],
    move: moveSpring,
    off: {
      'too-soft': (end) => scaledSpring(end, 1 / SPRING_OFF),
      'too-firm': (end) => scaledSpring(end, SPRING_OFF),
    },
  },
  'ramp-up': {
    units: ['spacers'],
    move(end, amount) {
      if (end.spring.kind === 'coil') return no('a coil spring takes no volume spacers');
      const fitted = end.spring.spacers + amount;
      if (fitted < 0) return no(`there are only ${end.spring.spacers} spacers to take out`);
      if (fitted > end.spring.spacersMax) return no(`no more than ${end.spring.spacersMax} spacers fit`);
      return { ok: true, end: { ...end, spring: { ...end.spring, spacers: fitted } } };
    },
    off: { 'too-little': (end) => ramped(end, -RAMP_OFF), 'too-much': (end) => ramped(end, RAMP_OFF) },
  },
  tyre: {
    units: ['psi', 'bar', 'kPa'],
    move(end, amount, unit) {
      const pressure = end.tyre.pressure + amount * siPer(unit as Unit);
      return pressure > 0
        ? { ok: true, end: { ...end, tyre: tyreAt(end.tyre, pressure) } }
        : no('that lets more out of the tyre than is in it');
    },
    off: {
      'too-soft': (end) => ({ ...end, tyre: tyreAt(end.tyre, end.tyre.pressure / TYRE_OFF) }),
      'too-hard': (end) => ({ ...end, tyre: tyreAt(end.tyre, end.tyre.pressure * TYRE_OFF) }),
    },
  },
  condition: {
    units: [],
    move: () => no('wear is repaired, not moved'),
    off: {
      worn: (end) => ({
        ...end,
        friction: { ...end.friction, coulomb: end.friction.coulomb * WORN },
      }),
    },
  },
};

export interface SettingName {
  readonly end: End;
  /** key of `SETTINGS` */
  readonly path: string;
}

/** `front.rebound.low` → its end and path; undefined when the model has no such setting. */
export function settingName(setting: string): SettingName | undefined {
  const dot = setting.indexOf('.');
  const end = setting.slice(0, dot);
  const path = setting.slice(dot + 1);
  if ((end !== 'front' && end !== 'rear') || !Object.hasOwn(SETTINGS, path)) return undefined;
  return { end, path };
}

/** True when the model can be put into a cause: `front.rebound.high`, `too-slow`. */
export function reaches(setting: string, direction: string): boolean {
  const name = settingName(setting);
  return name !== undefined && Object.hasOwn(SETTINGS[name.path]!.off, direction);
}

export function withEnd(bike: Bike, which: End, end: EndModel): Bike {
  return { ...bike, ends: { ...bike.ends, [which]: end } };
}

/** What one click of a circuit multiplies its coefficient by; a usual knob's when there is none. */
function ratioOf(end: EndModel, path: Circuit): number {
  return end.knobs[path]?.ratio ?? clickRatio(path, NO_KNOB_RANGE);
}

/** A circuit turned by clicks, stops not asked. */
export function clicked(end: EndModel, path: Circuit, clicks: number): EndModel {
  return scaledCircuit(end, path, ratioOf(end, path) ** clicks);
}

function scaledCircuit(end: EndModel, path: Circuit, factor: number): EndModel {
  const [side, speed] = path.split('.') as ['rebound' | 'compression', 'low' | 'high'];
  const low = speed === 'low' ? factor : 1;
  const high = speed === 'high' ? factor : 1;
  return { ...end, [side]: turned(end[side], low, high) };
}

function circuit(side: 'rebound' | 'compression', speed: 'low' | 'high'): SettingPhysics {
  const path: Circuit = `${side}.${speed}`;
  const off = ADJUSTER_SPAN[speed] ** CIRCUIT_OFF;
  const [closed, open] = side === 'rebound' ? ['too-slow', 'too-fast'] : ['too-firm', 'too-soft'];
  return {
    units: ['clicks'],
    move(end, amount) {
      const knob = end.knobs[path];
      if (knob === undefined) return no('it has no knob on this bike');
      const moved = clicked(end, path, amount);
      if (knob.now === undefined) return { ok: true, end: moved };
      const now = knob.now + amount;
      if (now < 0 || now > knob.range)
        return no(
          `it stands at ${knob.now} of ${knob.range} clicks from closed: ${amount < 0 ? knob.now : knob.range - knob.now} are left that way`,
        );
      return { ok: true, end: { ...moved, knobs: { ...moved.knobs, [path]: { ...knob, now } } } };
    },
    off: {
      [closed!]: (end) => scaledCircuit(end, path, 1 / off),
      [open!]: (end) => scaledCircuit(end, path, off),
    },
  };
}

function moveSpring(end: EndModel, amount: number, unit: string): Moved {
  const { spring } = end;
  if (is('pressure', unit)) {
    if (spring.kind === 'coil') return no('a coil spring has no pressure');
    const pressure = spring.pressure + amount * siPer(unit as Unit);
    return pressure > 0
      ? { ok: true, end: { ...end, spring: { ...spring, pressure } } }
      : no('that lets more out of the spring than is in it');
  }
  if (spring.kind === 'air') return no('an air spring is changed by pressure: psi, bar or kPa');
  if (is('rate', unit)) {
    const rate = spring.rate + amount * siPer(unit as Unit);
    return rate > 0
      ? { ok: true, end: { ...end, spring: { ...spring, rate } } }
      : no('that leaves no spring at all');
  }
  const preload = spring.preload + amount * (unit === 'turns' ? spring.pitch : siPer(unit as Unit));
  return preload >= 0
    ? { ok: true, end: { ...end, spring: { ...spring, preload } } }
    : no('that turns the collar off the spring: it would rattle');
}

function is(dimension: 'pressure' | 'rate', unit: string): boolean {
  return (unitsOf(dimension) as string[]).includes(unit);
}

function scaledSpring(end: EndModel, factor: number): EndModel {
  const { spring } = end;
  return {
    ...end,
    spring:
      spring.kind === 'air'
        ? { ...spring, pressure: spring.pressure * factor }
        : { ...spring, rate: spring.rate * factor },
  };
}

/** More or fewer spacers than now, even fewer than none: a chamber that is too big. A coil has no ramp-up of its own. */
function ramped(end: EndModel, spacers: number): EndModel | undefined {
  const { spring } = end;
  return spring.kind === 'air'
    ? { ...end, spring: { ...spring, spacers: spring.spacers + spacers } }
    : undefined;
}

function no(why: string): Moved {
  return { ok: false, why };
}
