export { soundFormats, soundMediaTypes, type SoundFormat } from './sound-format.ts';
export { type Sink } from './sink.ts';
export { stemsOrderOf, type SoundWish } from './sound-wish.ts';
export {
  recordSound,
  type FileSource,
  type OpenTrack,
  type Recorded,
  type RecordedFile,
  type RecordOrder,
} from './record-sound.ts';
export { openTrack, type Track } from './track.ts';
export { soundFileNames } from './file-names.ts';
