// A button that asks for files and hands on what is in them, as text.
import { useRef } from 'preact/hooks';
import type { TextFile } from './import.ts';

interface Props {
  readonly name: string;
  readonly many?: boolean;
  readonly primary?: boolean;
  readonly take: (files: readonly TextFile[]) => void;
}

export function readAll(list: Iterable<File>): Promise<readonly TextFile[]> {
  const read = async (one: File): Promise<TextFile> => ({ file: one.name, text: await one.text() });
  return Promise.all([...list].map(read));
}

/** The browser's own field is hidden: it is small, and speaks the browser's language. */
export function FilePicker({ name, many = false, primary = false, take }: Props) {
  const field = useRef<HTMLInputElement>(null);
  const picked = async () => {
    const files = field.current?.files;
    if (files === null || files === undefined || files.length === 0) return;
    const texts = await readAll(files);
    if (field.current !== null) field.current.value = ''; // The same file may be picked again.
    take(texts);
  };
  return (
    <>
      <input
        ref={field} type="file" hidden multiple={many} accept=".json,application/json"
        onChange={() => void picked()}
      />
      <button type="button" class={primary ? 'primary' : ''} onClick={() => field.current?.click()}>
        {name}
      </button>
    </>
  );
}
