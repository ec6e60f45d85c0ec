interface LogoMarkProps {
  readonly size?: number;
}

/** Three shafts, the middle one an eye with a thread through it. */
export function LogoMark({ size = 32 }: LogoMarkProps) {
  return (
    <svg width={size} height={size} viewBox="0 0 34 34" aria-hidden="true">
      <path d="M10 2V32M24 2V32" stroke="currentColor" strokeWidth="1.6" />
      <path d="M17 2V10M17 24V32" stroke="currentColor" strokeWidth="1.6" />
      <ellipse cx="17" cy="17" rx="4.2" ry="7" fill="none" stroke="currentColor" strokeWidth="1.8" />
      <path
        d="M1 21C8 21 10 17 17 17S26 13 33 13"
        fill="none"
        stroke="light-dark(#b4444d, #d9737b)"
        strokeWidth="2.6"
      />
    </svg>
  );
}
