import { useEffect, useState } from 'react';

/** A value once it has stood still for a while; the first one that `isReady` at once. */
export function useSettled<Value>(value: Value, delayMs: number, isReady: boolean): Value {
  const [settled, setSettled] = useState(value);
  const [hasStarted, setStarted] = useState(isReady);
  useEffect(() => {
    if (!hasStarted && isReady) {
      setStarted(true);
      setSettled(value);
      return;
    }
    const timer = setTimeout(() => setSettled(value), delayMs);
    return () => clearTimeout(timer);
  }, [value, delayMs, isReady, hasStarted]);
  return settled;
}
