/**
 * Variables, factors, the arithmetic circuit compiled from them, and exact posteriors.
 *
 * <p>Entry type: {@code Circuit}. Speaks mathematics, not the trade, and uses the JDK only, so that
 * it can be read, tested and moved on its own.
 */
package org.faultwright.inference;
