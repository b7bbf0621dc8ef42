import { phrase } from '../../words/phrase.ts';

/** `third`, `12th`. */
export function ordinal(position: number): string {
  return phrase(
    '{position, selectordinal, =1 {first} =2 {second} =3 {third} =4 {fourth} =5 {fifth} =6 {sixth} =7 {seventh} =8 {eighth} =9 {ninth} one {#st} two {#nd} few {#rd} other {#th}}',
    { position },
  );
}
