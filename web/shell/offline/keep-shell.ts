/**
 * Keeps the view on this device from now on, where the browser allows it (https, or the machine itself). A page that stands open
 * while a new version arrives is loaded anew at its next step, when nothing is half written.
 */
export function keepShell(): void {
  const { serviceWorker } = navigator;
  if (!serviceWorker) return;
  const first = serviceWorker.controller === null;
  let changes = 0;
  serviceWorker.addEventListener('controllerchange', () => {
    changes++;
  });
  window.addEventListener('hashchange', () => {
    if (changes > (first ? 1 : 0)) location.reload();
  });
  // Refused (private window, development server): the view works, but needs the network to open.
  const register = () => void serviceWorker.register('/service-worker.js').catch(() => undefined);
  if (document.readyState === 'complete') register();
  else window.addEventListener('load', register, { once: true });
}
