/**
 * Reading and writing of open formats: fault trees in the Open-PSA model exchange format, networks
 * in the bracketed text form of BIF.
 *
 * <p>Entry types: {@code OpenPsa} and {@code Bif}. Stands beside {@code diagnosis} and may use
 * everything below it.
 */
package org.faultwright.interchange;
