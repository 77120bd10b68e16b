/**
 * Tables of text, as a spreadsheet saves them or a person pastes them: comma, semicolon or tab
 * between cells, quotes around them, with or without a byte-order mark.
 *
 * <p>Entry type: {@code TextTable}. Knows nothing of what the cells mean. May use {@code problem}.
 */
package org.faultwright.measurement.table;
