/**
 * What a technician reads: answers as short lines of plain words that hold up at arm's length, on
 * narrow terminals, without colour and in plain ASCII.
 *
 * <p>Entry types: {@code AnswerText} and {@code SupposedText}; everything is written on a {@code
 * Page}, which knows the {@code Screen}.
 */
package org.faultwright.cli.text;
