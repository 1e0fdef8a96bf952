/** Where a finding was published, in the words of the publication: English, whatever language the page speaks. */
export function Citation({ children }: { children: string }) {
  return <cite lang="en">{children}</cite>;
}
