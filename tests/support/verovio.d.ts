/** The part of verovio's toolkit that the tests use; the package has no declarations of its own. */
declare module 'verovio/wasm' {
  const createModule: () => Promise<object>;
  export default createModule;
}
declare module 'verovio/esm' {
  export function enableLogToBuffer(isEnabled: boolean, module: object): void;
  export class VerovioToolkit {
    constructor(module: object);
    setOptions(options: Readonly<Record<string, unknown>>): void;
    loadData(data: string): boolean;
    getMEI(options: Readonly<Record<string, unknown>>): string;
    getLog(): string;
    getMIDIValuesForElement(id: string): object;
    getTimesForElement(id: string): object;
    renderToMIDI(): string;
    renderToTimemap(options: Readonly<Record<string, unknown>>): readonly object[];
    renderToSVG(page: number): string;
  }
}
