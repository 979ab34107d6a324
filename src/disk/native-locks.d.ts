/** The one function used of the lock library; the package ships no types. */
declare module 'fs-native-extensions' {
  /** @returns whether this descriptor now holds the lock of its whole file; throws an errno error where there are none */
  export function tryLock(fd: number): boolean;
}
