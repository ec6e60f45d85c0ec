import { Button, ToggleButton, type ButtonProps, type ToggleButtonProps } from 'react-aria-components';
import { Link, type LinkProps } from 'react-router';
import styles from './buttons.module.css';

/** The next thing to do; at most one on a screen. */
export const FilledButton = (props: ButtonProps) => <Button {...props} className={styles.filled ?? ''} />;

/** A deed of second rank with an edge around it. */
export const EdgeButton = (props: ButtonProps) => <Button {...props} className={styles.edge ?? ''} />;

/** A deed written as an underlined word. */
export const WordButton = (props: ButtonProps) => <Button {...props} className={styles.word ?? ''} />;

/** A setting that is on or off, written as an underlined word; on is inked. */
export const WordToggle = (props: ToggleButtonProps) => <ToggleButton {...props} className={styles.word ?? ''} />;

/** A button that shows only what stands in it, such as an eye. */
export const BareButton = (props: ButtonProps) => <Button {...props} className={styles.bare ?? ''} />;

/** A way to another screen, written as an underlined word. */
export const WordLink = (props: LinkProps) => <Link {...props} className={styles.word} />;

/** A way to another screen that is the next thing to do. */
export const FilledLink = (props: LinkProps) => <Link {...props} className={styles.filled} />;

/** A way to another screen with an edge around it. */
export const EdgeLink = (props: LinkProps) => <Link {...props} className={styles.edge} />;
