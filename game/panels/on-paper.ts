// What is folded away on the page and told on paper.
import { useEffect, useRef } from 'preact/hooks';

/** For the section whose folds open when it is printed. */
export function useToldOnPaper() {
  const all = useRef<HTMLElement>(null);
  useEffect(() => {
    const unfold = () => all.current?.querySelectorAll('details').forEach((one) => {
      one.open = true;
    });
    window.addEventListener('beforeprint', unfold);
    return () => window.removeEventListener('beforeprint', unfold);
  }, []);
  return all;
}
