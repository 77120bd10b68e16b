package org.faultwright.interchange;

import java.util.OptionalDouble;
import org.faultwright.faulttree.FaultTree;

/**
 * The fault-tree layer of the Open-PSA model exchange format: gates with the connectives and, or,
 * not, xor, iff, nand, nor, atleast, cardinality and imply; house events; basic events with a
 * probability or an exponential law over a mission time; components with public and private names.
 *
 * <p>Anything else of the format (event trees, common-cause groups, distributions of parameters) is
 * refused at its place rather than passed over, because it would change the figures. Labels are
 * kept; attributes, which figures do not depend on, are not. XML is read without document types and
 * without anything outside the text.
 */
public final class OpenPsa {

  private OpenPsa() {}

  /**
   * Reads a model.
   *
   * @param missionTime what {@code system-mission-time} stands for, where it is known
   */
  public static Reading<FaultTree> read(ExchangeText source, OptionalDouble missionTime) {
    return new OpenPsaReader(source, missionTime).read();
  }

  /**
   * Writes a tree. Read again it gives the same tree.
   *
   * @throws IllegalArgumentException when a public event is referred to where a private one of the
   *     same name hides it
   */
  public static String write(FaultTree tree) {
    return new OpenPsaWriter(tree).write();
  }
}
