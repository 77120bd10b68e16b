package org.faultwright.architecture;

import static com.tngtech.archunit.base.DescribedPredicate.describe;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static com.tngtech.archunit.library.GeneralCodingRules.NO_CLASSES_SHOULD_ACCESS_STANDARD_STREAMS;
import static com.tngtech.archunit.library.GeneralCodingRules.NO_CLASSES_SHOULD_USE_JAVA_UTIL_LOGGING;
import static org.assertj.core.api.Assertions.assertThat;

import com.tngtech.archunit.base.DescribedPredicate;
import com.tngtech.archunit.core.domain.JavaCall;
import com.tngtech.archunit.core.domain.JavaClass;
import java.util.Random;
import java.util.Set;
import java.util.concurrent.ThreadLocalRandom;
import org.junit.jupiter.api.Test;

class BoundaryArchitecture {
  private static final String RULES = "org.faultwright.rules..";

  /** What the rules decide; with the types that are kinds of them (an advice has many). */
  private static final Set<String> VERDICTS =
      Set.of(
          "org.faultwright.rules.HoldInForce",
          "org.faultwright.rules.Blocked",
          "org.faultwright.rules.Advice");

  private static final DescribedPredicate<JavaClass> VERDICT =
      describe(
          "a hold, a blocked step or an advice",
          c ->
              VERDICTS.stream()
                  .anyMatch(v -> c.isAssignableTo(v) || c.getName().startsWith(v + "$")));

  @Test
  void onlyRules_seeDrools() {
    noClasses()
        .that()
        .resideOutsideOfPackage(RULES)
        .should()
        .dependOnClassesThat()
        .resideInAnyPackage("org.drools..", "org.kie..")
        .because("hosts and the other packages speak of facts and advice, never of a rule engine")
        .check(Scan.MAIN);
  }

  @Test
  void verdicts_areKnownByTheirNames() {
    if (Scan.packagesWithSources(Scan.MAIN_SOURCES).contains("org.faultwright.rules")) {
      assertThat(Scan.MAIN.stream().map(JavaClass::getName))
          .as("the next rule says nothing about a verdict that goes by another name")
          .containsAll(VERDICTS);
    }
  }

  @Test
  void onlyRules_makeVerdicts() {
    noClasses()
        .that()
        .resideOutsideOfPackage(RULES)
        .should()
        .callConstructorWhere(JavaCall.Predicates.target(ownedBy(VERDICT)))
        .because("there is one place that decides what is safe, what is open and what is advised")
        .check(Scan.MAIN);
  }

  @Test
  void engine_knowsNoLogBackEnd() {
    noClasses()
        .should()
        .dependOnClassesThat()
        .resideInAnyPackage("ch.qos.logback..", "org.slf4j.simple..", "org.apache.logging..")
        .because("a library writes to SLF4J and leaves the choice of a log to its host")
        .check(Scan.MAIN);
    NO_CLASSES_SHOULD_USE_JAVA_UTIL_LOGGING.check(Scan.MAIN);
  }

  @Test
  void engine_printsNothing() {
    NO_CLASSES_SHOULD_ACCESS_STANDARD_STREAMS
        .because("standard output belongs to the host")
        .check(Scan.MAIN);
  }

  @Test
  void engine_drawsNoUnseededChance() {
    noClasses()
        .should()
        .callConstructor(Random.class)
        .orShould()
        .callMethod(Math.class, "random")
        .orShould()
        .callMethod(ThreadLocalRandom.class, "current")
        .because("the same facts must give the same answer tomorrow")
        .check(Scan.MAIN);
  }

  /** The oracles are written from the semantics; what they check must not be what they call. */
  @Test
  void oracle_usesNeitherCompileNorInference() {
    noClasses()
        .that()
        .resideInAPackage("org.faultwright.oracle..")
        .should()
        .dependOnClassesThat()
        .resideInAnyPackage("org.faultwright.compile..", "org.faultwright.inference..")
        .because("an oracle that shares code with what it checks shares its mistakes")
        .allowEmptyShould(
            !Scan.packagesWithSources(Scan.TEST_SOURCES).contains("org.faultwright.oracle"))
        .check(Scan.TESTS);
  }

  private static DescribedPredicate<com.tngtech.archunit.core.domain.AccessTarget> ownedBy(
      DescribedPredicate<JavaClass> owner) {
    return describe("of " + owner.getDescription(), t -> owner.test(t.getOwner()));
  }
}
