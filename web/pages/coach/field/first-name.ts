/** The first word of a name: what is called across a field. */
export function firstName(name: string): string {
  return name.split(' ')[0];
}
