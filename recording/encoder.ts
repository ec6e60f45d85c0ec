import type { Encoder, EncoderOrder } from './encoding.ts';
import { openPacked } from './packed-encoder.ts';
import type { Sink } from './sink.ts';
import { openWav } from './wav-encoder.ts';

/** An encoder that writes to a sink. **Errors** throws where the sound is longer than the format can hold. */
export const openEncoder = (order: EncoderOrder, sink: Sink): Promise<Encoder> =>
  order.format === 'wav' ? Promise.resolve(openWav(order, sink)) : openPacked(order.format, order, sink);
