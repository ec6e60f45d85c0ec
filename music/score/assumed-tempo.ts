/** How fast music goes that names no tempo. **Units** quarter notes a minute. **Source** Standard MIDI Files 1.0: 120 where nothing is set. */
export const assumedTempo = 120;
