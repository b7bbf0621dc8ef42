import { type ReactNode, useState } from 'react';
import { Icon } from './icons.tsx';

interface FoldedProps {
  readonly title: string;
  readonly children: ReactNode;
}

/** Something folded away under its title; what is inside is made only when it is opened. */
export function Folded({ title, children }: FoldedProps) {
  const [isOpen, setOpen] = useState(false);
  return (
    <details className="folded" onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>
        <Icon name="chevron" size={16} />
        {title}
      </summary>
      {isOpen && children}
    </details>
  );
}
