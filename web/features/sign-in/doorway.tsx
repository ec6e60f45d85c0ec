import type { ReactNode } from 'react';
import { PageFrame } from '../../ui/page-frame.tsx';
import { ThemeSwitch } from '../../ui/theme-switch.tsx';
import styles from './sign-in.module.css';
import { Warp } from './warp.tsx';

interface DoorwayProps {
  readonly title: string;
  readonly lead: string;
  readonly children: ReactNode;
}

/** The frame of every way in: a few threads, one of them lifted, and a short form. */
export const Doorway = ({ title, lead, children }: DoorwayProps) => (
  <PageFrame title={title} end={<ThemeSwitch />}>
    <div className={styles.doorway}>
      <Warp />
      <div className={styles.inner}>
        <h1>{title}</h1>
        <p className={styles.lead}>{lead}</p>
        {children}
      </div>
    </div>
  </PageFrame>
);
