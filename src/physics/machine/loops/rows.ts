/** Where things stand in a row of a drive's table; `DRIVE` of `ride/drive.ts` says what they are. */
import type { i32 } from './numbers.ts';

export const FRONT: i32 = 0;
export const FRONT_RATE: i32 = 1;
export const REAR: i32 = 2;
export const REAR_RATE: i32 = 3;
export const GRAVITY: i32 = 4;
export const GRIP: i32 = 5;
export const CHAIN: i32 = 6;
export const PUSH: i32 = 7;
export const ROW: i32 = 8;
