/** Data as YAML. A file of its own, so that the library comes in only where something is written. */
import { stringify } from 'yaml';

export function yamlText(data: unknown): string {
  return stringify(data);
}
