/** Who asks: every service takes one first. */
export interface Person {
  readonly id: string;
  readonly name: string;
  readonly email: string;
}
