/**
 * A case worked through at a terminal: one question at a time, every answer on disk before the next
 * one. {@code examples/cli/docs/dialogue.md} says how it looks from the bench.
 *
 * <p>Entry type: {@code Dialogue}. Uses the engine's API and {@code cli.text}; knows nothing of
 * commands and their options.
 */
package org.faultwright.cli.dialogue;
