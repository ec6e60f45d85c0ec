/** Where playing is, as a sheet needs it: tells the written ticks once a frame while they move, and once when they have come to rest. */
export interface PlaceSource {
  subscribe(listener: (ticks: number) => void): () => void;
}
