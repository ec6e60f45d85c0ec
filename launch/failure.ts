/** A start that cannot go on, told in one sentence; the process then ends with code 1. */
export class StartFailure extends Error {}
