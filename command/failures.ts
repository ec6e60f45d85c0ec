/** The command was not used as its help says. Told in a sentence; exit code 2. */
export class WrongUse extends Error {}

/** A file cannot be read, or not be written as asked. Told in sentences that say what, where and what was kept; exit code 1. */
export class CannotDo extends Error {}
