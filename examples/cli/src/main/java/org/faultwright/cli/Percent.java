package org.faultwright.cli;

import picocli.CommandLine.ITypeConverter;
import picocli.CommandLine.TypeConversionException;

/** A probability on the command line, as packs write it: {@code 95 %}, {@code 95%} or 0.95. */
final class Percent implements ITypeConverter<Double> {

  @Override
  public Double convert(String text) {
    String number = text.strip();
    boolean percent = number.endsWith("%");
    number = percent ? number.substring(0, number.length() - 1).strip() : number;
    if (number.matches("[0-9]{1,3}([.,][0-9]{1,10})?")) {
      double p = Double.parseDouble(number.replace(',', '.')) / (percent ? 100 : 1);
      if (p > 0 && p < 1) {
        return p;
      }
    }
    throw new TypeConversionException(
        "must be between 0 and 1, as in '95 %' or 0.95: '" + text + "'");
  }
}
