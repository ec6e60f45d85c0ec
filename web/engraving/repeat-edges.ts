interface Jump {
  readonly type: number;
}

interface MeasureOfStrip {
  readonly LastRepetitionInstructions: Jump[];
}

interface SheetOfStrip {
  readonly SourceMeasures: MeasureOfStrip[] & { [before: number]: MeasureOfStrip | undefined };
}

interface Calculator {
  calculateRepetitions: (sheet: SheetOfStrip, written: Jump[]) => void;
}

const corrected = new WeakSet<object>();

/**
 * Makes the engraver take a strip for what it is, a piece of a score: a repeat that is still open at its end gets no
 * closing bar line there, and a first ending may stand in its first bar. Once per loaded library.
 */
export function keepRepeatsOpen(calculator: { readonly prototype: object }, backJump: number): void {
  const prototype = calculator.prototype as Calculator;
  if (corrected.has(prototype)) return;
  corrected.add(prototype);
  const original = prototype.calculateRepetitions;
  prototype.calculateRepetitions = function calculateOfStrip(this: Calculator, sheet, written) {
    const measures = sheet.SourceMeasures;
    measures[-1] = { LastRepetitionInstructions: [] };
    original.call(this, sheet, written);
    Reflect.deleteProperty(measures, -1);
    for (const { LastRepetitionInstructions: jumps } of measures)
      jumps.splice(0, jumps.length, ...jumps.filter((jump) => jump.type !== backJump || written.includes(jump)));
  };
}
