/**
 * Answers as JSON for other programs, format 1: {@code examples/cli/docs/json.md} says what each
 * key means, {@code shared/schema/answer-1.schema.json} states it for machines.
 *
 * <p>Entry type: {@code AnswerJson}.
 */
package org.faultwright.cli.json;
