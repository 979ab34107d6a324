/** The few functions of jstat that are used; the package ships no types. */
declare module 'jstat' {
  interface Distribution {
    cdf(x: number, parameter: number): number;
    inv(p: number, parameter: number): number;
    pdf(x: number, parameter: number): number;
  }
  const jstat: {
    readonly studentt: Distribution;
    readonly normal: {
      cdf(x: number, mean: number, sd: number): number;
      inv(p: number, mean: number, sd: number): number;
    };
  };
  export default jstat;
}
