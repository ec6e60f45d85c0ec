/** Either a value or the reason why there is none; for deeds that may be refused. */
export type Result<Value, Refusal> =
  { readonly ok: true; readonly value: Value } | { readonly ok: false; readonly refusal: Refusal };

/** A successful result. */
export const ok = <Value>(value: Value): Result<Value, never> => ({ ok: true, value });

/** A refused result. */
export const refused = <Refusal>(refusal: Refusal): Result<never, Refusal> => ({ ok: false, refusal });
