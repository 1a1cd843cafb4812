using BenchmarkDotNet.Attributes;
using FoamRules.Model;
using FoamRules.RuleSets;
using FoamRules.RuleSets.Declared;
using UnitsNet;

namespace FoamRules.Benchmarks;

/// <summary>One evaluation of a declared requirement's expression, with the fields it reads noted.</summary>
[MemoryDiagnoser]
public class ExpressionBenchmarks
{
    private readonly Condition _two = Compile("area.exclusion_distance >= feet(25) && area.people_in_zone > 1");
    private readonly Condition _flags = Compile("area.contained && area.unprotected_people_out && area.floors_above_and_below_clear && area.exhaust_outlet_excluded");
    private readonly Condition _macro = Compile("area.readings.all(r, r.temperature >= degrees_celsius(5))");
    private readonly ExpressionInput _given = Input(new WorkArea
    {
        ExclusionDistance = Length.FromFeet(30),
        PeopleInZone = 2,
        Contained = true,
        UnprotectedPeopleOut = true,
        FloorsAboveAndBelowClear = true,
        ExhaustOutletExcluded = true,
        Readings = [.. Enumerable.Range(0, 10).Select(_ => new Reading { Temperature = Temperature.FromDegreesCelsius(12) })],
    });

    private readonly ExpressionInput _empty = Input(new WorkArea());

    /// <summary>Two comparisons: a length with a literal, a number with a number.</summary>
    [Benchmark(Baseline = true)]
    public bool? TwoComparisons() => _two.Ask(_given).Holds;

    /// <summary>The same where neither field is given.</summary>
    [Benchmark]
    public int TwoComparisonsMissing() => _two.Ask(_empty).Missing.Count;

    /// <summary>Four yes/no fields.</summary>
    [Benchmark]
    public bool? FourFlags() => _flags.Ask(_given).Holds;

    /// <summary>A macro over ten entries.</summary>
    [Benchmark]
    public bool? TenEntries() => _macro.Ask(_given).Holds;

    private static Condition Compile(string text) => Condition.Compile(SyntaxReader.Read(text), ExpressionScope.Of(DeclaredBearer.Area, new Dictionary<string, Limit>()));

    private static ExpressionInput Input(WorkArea area) => new() { Plan = new Plan(), Site = new Site(), Gear = new Gear(), Area = area };
}
