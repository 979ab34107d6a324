/** `earshot rules schema`: the form of every file. */
import { command, type Takes } from '../../takes.ts';
import { SCHEMAS, schemaOf } from '../../../report/rules/schemas.ts';
import { didYouMean } from '../../../form/suggest.ts';
import { EXIT, Refusal } from '../../../host/io.ts';
import { json } from '../../../form/text.ts';
import { ownSettings } from '../../../workspace/rules/own-settings.ts';

const form: Takes<string> = { about: 'which form', fallback: 'rules' };

export const rulesSchema = command({
  about: 'the JSON Schema of a file form, for editors: rules, pack, case, result, bike',
  args: { form },
  examples: [['earshot rules schema case > case.schema.json', 'for the editor']],
  run: async ({ form: what }, { io }) => {
    if (!(SCHEMAS as readonly string[]).includes(what))
      throw new Refusal(
        `There is no schema ${what}. ${didYouMean(what, SCHEMAS) || `Choose one of ${SCHEMAS.join(', ')}.`}`,
      );
    const own = what === 'bike' ? await ownSettings(io) : [];
    await io.out(json(schemaOf(what as (typeof SCHEMAS)[number], own)));
    return EXIT.done;
  },
});
