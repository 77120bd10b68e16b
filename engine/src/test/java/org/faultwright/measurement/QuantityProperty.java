package org.faultwright.measurement;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatCode;

import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.constraints.StringLength;

class QuantityProperty {

  @Property
  void parse_readsWhatToStringPrints(
      @ForAll @DoubleRange(min = 1, max = 10) double digits,
      @ForAll @IntRange(min = -20, max = 2) int power,
      @ForAll Dimension dimension) {
    Quantity quantity = new Quantity(digits * Math.pow(10, power), dimension);
    assertThat(Quantity.parse(quantity.toString(), dimension)).isEqualTo(quantity);
  }

  @Property
  void parse_refusesBadTextWithAMessageOnly(@ForAll @StringLength(max = 12) String text) {
    assertThatCode(
            () -> {
              try {
                Quantity.parse(text);
              } catch (IllegalArgumentException e) {
                assertThat(e).isExactlyInstanceOf(IllegalArgumentException.class);
                assertThat(e.getMessage()).isNotBlank();
              }
            })
        .doesNotThrowAnyException();
  }

  @Property
  void parse_neverTakesMilliForMega(@ForAll @IntRange(min = 1, max = 99) int number) {
    double milli = Quantity.parse(number + " mohm").si();
    double mega = Quantity.parse(number + " Mohm").si();
    assertThat(mega / milli).isBetween(0.999999e9, 1.000001e9);
  }
}
