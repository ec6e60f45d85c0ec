/** The one thing outside ECMAScript that music/ uses: it is the same in Node and in browsers, and reading UTF-16 needs it. */
interface TextDecoder {
  decode(bytes: Uint8Array): string;
}
declare const TextDecoder: new (
  label: string,
  options?: { readonly fatal?: boolean; readonly ignoreBOM?: boolean },
) => TextDecoder;
