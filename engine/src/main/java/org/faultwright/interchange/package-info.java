/**
 * Reading and writing of open formats for networks, fault trees and repair records.
 *
 * <p>Stands beside {@code diagnosis} and may use everything below it.
 */
package org.faultwright.interchange;
