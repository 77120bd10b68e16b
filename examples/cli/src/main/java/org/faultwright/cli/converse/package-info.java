/**
 * A conversation in JSON lines, for programs in other languages: {@code
 * examples/cli/docs/converse.md} describes it.
 *
 * <p>Entry type: {@code Conversation}. Uses the engine's API and {@code cli.json}; knows nothing of
 * commands and their options.
 */
package org.faultwright.cli.converse;
