interface LogoMarkProps {
  readonly size?: number;
}

/** Three shafts; the middle one is raised and carries a thread through its eye. */
export function LogoMark({ size = 32 }: LogoMarkProps) {
  return (
    <svg width={size} height={size} viewBox="0 0 32 32" fill="none" aria-hidden="true">
      <path d="M7 8V30M25 8V30M16 1V6M16 18V25" stroke="currentColor" strokeWidth="1.5" />
      <ellipse cx="16" cy="12" rx="3.8" ry="6" stroke="currentColor" strokeWidth="1.7" />
      <path
        d="M1 23H5C10 23 10 12 16 12S22 23 27 23H31"
        stroke="var(--madder)"
        strokeWidth="2.5"
        strokeLinecap="round"
      />
    </svg>
  );
}
