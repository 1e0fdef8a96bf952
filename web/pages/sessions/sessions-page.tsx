/** Placeholder of the frame; replaced by the page itself. */
export default function Page() {
  return <h1>sessions</h1>;
}
