/** The built-in pack, compiled from its files as they stand now. */
import type { CompiledRules } from '../../src/rulebase/compiled.ts';
import * as base from '../support/base-rules.ts';

export const baseRules = (): CompiledRules => base.baseRules().rules;
