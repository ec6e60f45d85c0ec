/** The properties that a change really tells; an absent one is not a wish to clear it. */
export const withoutGaps = <Change extends object>(change: Change): Change =>
  Object.fromEntries(
    Object.entries(change as Record<string, unknown>).filter(([, value]) => value !== undefined),
  ) as Change;
