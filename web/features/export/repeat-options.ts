/** What becomes of repeats and jumps in what is taken out. */
export const repeatOptions = [
  { value: 'unfolded', text: 'followed' },
  { value: 'written', text: 'left out: as printed' },
] as const;
