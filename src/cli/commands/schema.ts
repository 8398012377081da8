import { assessmentJsonSchema } from '#record/json-schema';
import { recordReference } from '#record/record-reference';
import { type ConfigureCommand, examplesText } from '../command-context.ts';

/** Adds `unfasten schema`: what may stand in an assessment, for programs (JSON Schema) or for people? */
export const configureSchema: ConfigureCommand = (command, context) => {
  command
    .option('--docs', 'print the description of every field as Markdown')
    .option('--json', 'print the JSON Schema, which is done in any case without --docs')
    .addHelpText(
      'after',
      examplesText([
        ['unfasten schema > assessment.schema.json', 'the JSON Schema (2020-12), for editors and other programs'],
        ['unfasten schema --docs', 'every field, what may stand in it and what it means'],
      ]),
    )
    .action((options: { readonly docs?: boolean; readonly json?: boolean }) => {
      if (!options.docs) return context.output.json(assessmentJsonSchema());
      const reference = recordReference();
      return options.json ? context.output.json({ markdown: reference }) : context.output.write(reference);
    });
};
