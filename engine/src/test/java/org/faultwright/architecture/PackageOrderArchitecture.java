package org.faultwright.architecture;

import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.classes;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static com.tngtech.archunit.library.dependencies.SlicesRuleDefinition.slices;
import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.DynamicTest.dynamicTest;

import java.util.Arrays;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;

class PackageOrderArchitecture {
  @Test
  void scan_findsEveryPackageThatHasSources() {
    List<String> sourcePackages = Scan.packagesWithSources(Scan.MAIN_SOURCES);
    assertThat(sourcePackages).contains("org.faultwright.pack");
    assertThat(Scan.MAIN.stream().map(c -> c.getPackageName()).distinct())
        .as("a rule over classes that were not scanned proves nothing")
        .containsAll(sourcePackages);
  }

  @Test
  void everyPackage_standsInTheOrder() {
    assertThat(Scan.packagesWithSources(Scan.MAIN_SOURCES))
        .as("a package that is not in EnginePackage is bound by no rule")
        .allSatisfy(name -> assertThat(EnginePackage.of(name)).as(name).isPresent());
  }

  @Test
  void everyPackage_saysWhatItIsFor() {
    assertThat(EnginePackage.values())
        .allSatisfy(
            p ->
                assertThat(
                        Scan.MAIN_SOURCES.resolve(
                            p.packageName().replace('.', '/') + "/package-info.java"))
                    .exists());
  }

  @TestFactory
  Stream<DynamicTest> package_usesOnlyWhatStandsBelowIt() {
    return Arrays.stream(EnginePackage.values())
        .filter(p -> p.outOfReach().length > 0)
        .map(
            p ->
                dynamicTest(
                    p.packageName(),
                    () ->
                        noClasses()
                            .that()
                            .resideInAPackage(p.packageName() + "..")
                            .should()
                            .dependOnClassesThat()
                            .resideInAnyPackage(p.outOfReach())
                            .because(p.reason() + " (it may use " + p.reachInWords() + ")")
                            .check(Scan.MAIN)));
  }

  @Test
  void packages_formNoCycles() {
    slices()
        .matching("org.faultwright.(*)..")
        .should()
        .beFreeOfCycles()
        .because("packages in a cycle can only be understood, tested and moved together")
        .check(Scan.MAIN);
  }

  @Test
  void inference_usesTheJdkOnly() {
    classes()
        .that()
        .resideInAPackage("org.faultwright.inference..")
        .should()
        .onlyDependOnClassesThat()
        .resideInAnyPackage("java..", "org.faultwright.inference..")
        .because("the mathematics has to run wherever a JDK runs and owes nothing to a library")
        .check(Scan.MAIN);
  }
}
