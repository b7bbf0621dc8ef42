import { Icon, type IconName } from './icons.tsx';

interface ActButtonProps {
  readonly icon: IconName;
  readonly label: string;
  /** It stays where it is and can be reached, but does nothing. */
  readonly isOff?: boolean;
  /** Side of the icon, pixels. */
  readonly size?: number;
  readonly act: () => void;
}

/** A button that is an icon alone; its words are heard, and shown where the pointer rests. */
export function ActButton({ icon, label, isOff = false, size, act }: ActButtonProps) {
  return (
    <button
      type="button"
      className="icon-button"
      aria-label={label}
      title={label}
      aria-disabled={isOff}
      onClick={() => {
        if (!isOff) act();
      }}
    >
      <Icon name={icon} {...(size === undefined ? {} : { size })} />
    </button>
  );
}
