using FoamRules.Rules.Fill;
using FoamRules.Rules.GearChecks;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;
using UnitsNet;

namespace FoamRules.Rules.Engine;

/// <summary>What today's numbers take from the rule sets, read when the engine starts.</summary>
internal sealed class NumberRules
{
    private static readonly string[] TextKeys =
    [
        "number-failed", "number-shot", "number-shot-note", "number-shot-none", "number-shot-disagree", "number-by-mass", "number-by-test-shots", "number-by-both",
        "number-wait-fill", "number-wait-fill-note", "number-wait-rise-open", "number-wait-sheet-open", "number-wait-cooling", "number-passes", "number-passes-proposed", "number-pass",
        "number-pass-thickest", "number-pass-note", "number-wait-pass", "number-wait-pass-note", "number-board-feet", "number-in-place", "number-drawn",
        "number-drawn-note", "number-sets", "number-sets-note", "number-without", "number-rotation", "number-rotation-note", "number-rotation-none",
        "price-unknown", "price-open", "price-least", "picture-clock-trades", "picture-clock-occupants", "picture-pour",
    ];

    /// <exception cref="RuleSetMismatchException">The rule sets do not give what is needed.</exception>
    public NumberRules(RuleBook book)
    {
        Fill = new FillParameters(book.Parameters);
        Heat = new HeatParameters(book.Parameters);
        TestShots = new TestedSeconds(book.Requirements["fill.output-fits-test-shots"]);
        Overpack = book.Requirements["fill.shot-does-not-overfill"].Limits["overpack"].As<Ratio>();
        FullRises = book.Requirements["fill.wait-covers-full-rise"].Limits["full-rises"];
        Material = new MaterialNeed(Fill, Overpack);
        Rotation = new RotationPlanned(book.Requirements["fill.rotation-planned"]);
        Waste = Parameter(book, "material-waste").As<Ratio>();
        DrumSet = Parameter(book, "drum-set").As<Mass>();
        if (TextKeys.Concat(Wording.Keys).FirstOrDefault(key => !book.Texts.ContainsKey(key)) is { } missing)
        {
            throw new RuleSetMismatchException("texts", $"texts.yaml does not give {missing}");
        }
    }

    /// <summary>Values that the requirements of a fill share.</summary>
    public FillParameters Fill { get; }

    /// <summary>What the rule sets say of heat.</summary>
    public HeatParameters Heat { get; }

    /// <summary>What is asked of test shots.</summary>
    public TestedSeconds TestShots { get; }

    /// <summary>The foam that work takes.</summary>
    public MaterialNeed Material { get; }

    /// <summary>Greatest overpack where the data sheet gives none.</summary>
    public Ratio Overpack { get; }

    /// <summary>How many times the full rise to wait.</summary>
    public Limit FullRises { get; }

    /// <summary>In which order to pour.</summary>
    public RotationPlanned Rotation { get; }

    /// <summary>The share of material lost where the plan gives none.</summary>
    public Ratio Waste { get; }

    /// <summary>The mass of a set of drums where the plan gives none.</summary>
    public Mass DrumSet { get; }

    private static Limit Parameter(RuleBook book, string name) => book.Parameters.GetValueOrDefault(name) ?? throw new RuleSetMismatchException("parameters", $"parameters.yaml does not give {name}");
}
