/** Properties are tried with the same cases everywhere, so that a failure can be repeated. */
export const fixedSeed = 20_261_125;
