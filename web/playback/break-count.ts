/** How often sound broke off while music played, from a device's own running count. */
export class BreakCount {
  private breaks = 0;
  private known: number | null = null;

  /** A new playing begins: what the device counted before does not count here. */
  begin(): void {
    this.known = null;
  }

  /** Takes the device's present count; gives the breaks while playing since the beginning. */
  follow(count: number): number {
    if (this.known !== null && count > this.known) this.breaks += count - this.known;
    this.known = count;
    return this.breaks;
  }
}
