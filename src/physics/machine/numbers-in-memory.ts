/** `loops/numbers.ts` for the compiler of machine code. A list is where it begins in memory, its numbers eight bytes apart. */
@unmanaged
export class Numbers {
  @inline
  @operator('[]')
  get(i: i32): f64 {
    return load<f64>(changetype<usize>(this) + ((<usize>i) << 3));
  }
  @inline
  @operator('[]=')
  set(i: i32, value: f64): void {
    store<f64>(changetype<usize>(this) + ((<usize>i) << 3), value);
  }
}

/** The same of numbers that count, four bytes apart. */
@unmanaged
export class Counts {
  @inline
  @operator('[]')
  get(i: i32): i32 {
    return load<i32>(changetype<usize>(this) + ((<usize>i) << 2));
  }
  @inline
  @operator('[]=')
  set(i: i32, value: i32): void {
    store<i32>(changetype<usize>(this) + ((<usize>i) << 2), value);
  }
}

export declare function cosine(x: f64): f64;
export declare function sine(x: f64): f64;
export declare function cubeRoot(x: f64): f64;
export declare function power(base: f64, exponent: f64): f64;
export declare function log2(x: f64): f64;

export function whole(x: f64): i32 {
  return <i32>x;
}
