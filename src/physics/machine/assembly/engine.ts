/** What the engine lends: its own functions, so that both writings give the same bits. */
export declare function cosine(x: f64): f64;
export declare function sine(x: f64): f64;
export declare function cubeRoot(x: f64): f64;
export declare function power(base: f64, exponent: f64): f64;
