/** One row of the settings table: all that anybody asks of a setting, whatever it is. */
import type { Circuit, Reading } from './circuits.ts';
import type { ChangeUnit, Dial, NoDial, Of } from './dial/dial.ts';
import type { OwnSetting } from './own-setting.ts';
import type { BikeSheet, End } from './sheet.ts';

/** What a sheet says of one row, in `unit`; a reading in percent, a named position by its number. */
export interface Shown {
  readonly unit: string;
  readonly now?: number | undefined;
  /** how far it goes at all, for what is counted */
  readonly of?: number | undefined;
  readonly maker?: number | undefined;
  readonly wanted?: number | undefined;
  readonly names?: readonly string[] | undefined;
}

export interface Row {
  /** as the change notation names it; a coil's rate and its preload share `front.spring` */
  readonly setting: string;
  readonly end?: End;
  /** as a log and `bike set` name it: front.spring.rate */
  readonly stand: string;
  /** `front low-speed rebound` */
  readonly words: string;
  /** in a table, below the heading of its end: `Rebound, low speed` */
  readonly title: string;
  /** units it can be changed in; none for what is only read */
  readonly units: readonly ChangeUnit[];
  /** where its number stands in the file form: front.rebound.low.now */
  readonly file: string;
  readonly circuit?: Circuit;
  readonly own?: OwnSetting;
  readonly reading?: Reading;
  /** how to find out where it stands */
  readonly find: string;
  /** undefined when this bike has no such thing, such as the pressure of a coil */
  readonly shown: (sheet: BikeSheet) => Shown | undefined;
  readonly dial: (sheet: BikeSheet, of: Of) => Dial | NoDial;
}
