using FoamRules.Calculations;
using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Fill;
using FoamRules.Rules.Judging;
using UnitsNet;

namespace FoamRules.Rules.Engine;

/// <summary>Today's numbers of a fill: seconds a shot for each compartment, and the wait before coming back to it.</summary>
internal sealed class FillToday(NumberRules rules, FillFacts facts, Wording wording)
{
    private readonly FillNumbers _numbers = FillNumbers.Of(facts, rules.Fill);

    public IEnumerable<Number> All()
    {
        if (_numbers.Spaces.Gap is not null)
        {
            yield break;
        }

        var mostShots = 0;
        foreach (var space in _numbers.Spaces.Value)
        {
            var shots = ShotsFor(space);
            mostShots = Math.Max(mostShots, shots);
            if (Seconds(space, shots) is { } seconds)
            {
                yield return seconds;
            }
        }

        if (mostShots > 1 && Wait() is { } wait)
        {
            yield return wait;
        }

        if (mostShots > 1 && Turn() is { } turn)
        {
            yield return turn;
        }
    }

    // Which holes, in which order, is the day's clock; here is how many before the first comes again.
    private Number? Turn()
    {
        var plan = rules.Rotation.Timetable(facts);
        if (plan.Gap is not null)
        {
            return null;
        }

        var number = new Number { Subject = facts.Subject, Name = wording.Text("number-rotation"), Steps = plan.Steps };
        return plan.Value.Wait is { } stand
            ? number with { Note = wording.Text("number-rotation-none", ("wait", wording.Show(stand))) }
            : number with { Aim = Measure.OfCount(plan.Value.CompartmentsInTurn), Note = wording.Text("number-rotation-note") };
    }

    // As many as the plan gives; else the fewest that the sheet's longest shot and highest rise allow.
    private int ShotsFor(FillSpace space)
    {
        var planned = _numbers.ShotsInto(space);
        if (planned.Gap is null && !planned.Value.IsEmpty)
        {
            return planned.Value.Length;
        }

        var whole = _numbers.SecondsByMass(space, Overpack, 1);
        var byTime = whole.Gap is null && ShotEndsBeforeGel.Longest(facts.Sheet) is { } longest ? Fewest(whole.Value.High / longest.As<Duration>()) : 1;
        var byRise = facts.Sheet.MaxRisePerPour is { } highest ? Fewest(space.Length / highest) : 1;
        return Math.Max(byTime, byRise);
    }

    private Ratio Overpack => facts.Sheet.MaxOverpack ?? rules.Overpack;

    private Number? Seconds(FillSpace space, int shots)
    {
        var number = new Number { Subject = facts.Subject, Name = wording.Text("number-shot", ("compartment", wording.Show(space.Name))), Compartment = space.Number };
        var byMass = _numbers.SecondsByMass(space, Overpack, shots);
        if (byMass.Gap is { MissingFields.IsEmpty: true } refused)
        {
            // Either no time is safe, or the flow factor does not hold on this steel, which a finding says.
            return refused.Words.ContainsKey("input")
                ? number with { Note = wording.Text("number-shot-none", ("input", Show(refused, "input")), ("found", Show(refused, "found")), ("allowed", Show(refused, "allowed"))) }
                : null;
        }

        var tested = Tested(space, shots);
        if (byMass.Gap is null && tested is { } two)
        {
            var (low, high) = (Later(byMass.Value.Low, two.Low), Earlier(byMass.Value.High, two.High));
            return low > high
                ? number with { Note = wording.Text("number-shot-disagree", ("mass", Span(byMass.Value.Low, byMass.Value.High)), ("tested", Span(two.Low, two.High))) }
                : Filled(number, low, (low + high) / 2, high, shots, "number-by-both") with { Steps = byMass.Steps };
        }

        return byMass.Gap is null ? Filled(number, byMass.Value.Low, byMass.Value.Aim, byMass.Value.High, shots, "number-by-mass") with { Steps = byMass.Steps }
            : tested is { } only ? Filled(number, only.Low, only.Aim, only.High, shots, "number-by-test-shots")
            : null;
    }

    private ShotTime? Tested(FillSpace space, int shots)
    {
        var tests = TestedSeconds.ShotsOf(_numbers);
        if (tests.Gap is not null)
        {
            return null;
        }

        var time = rules.TestShots.For(space.Length / shots, tests.Value, facts.Fill.TestShots!.OutputSpread);
        return time is { HasValue: true, Value.NarrowEnough: true } ? time.Value : null;
    }

    private Number Filled(Number number, Duration low, Duration aim, Duration high, int shots, string basis) => number with
    {
        Low = Measure.Of(low),
        Aim = Measure.Of(aim),
        High = Measure.Of(high),
        Note = wording.Text("number-shot-note", ("count", wording.Show(Measure.OfCount(shots))), ("basis", wording.Text(basis))),
    };

    private Number? Wait()
    {
        var needed = WaitCoversFullRise.Needed(facts, rules.FullRises)?.As<Duration>();
        var cooling = Cooling();
        if ((needed ?? cooling) is null)
        {
            return null;
        }

        var notes = new List<string> { wording.Text("number-wait-fill-note") };
        if (facts.Fill.TestShots?.FullRiseSeen is null)
        {
            notes.Add(wording.Text("number-wait-rise-open"));
        }

        if (facts.Sheet.WaitBetweenPours is null)
        {
            notes.Add(wording.Text("number-wait-sheet-open"));
        }

        var coolingDecides = cooling is not null && (needed is null || cooling > needed);
        if (coolingDecides)
        {
            notes.Add(wording.Text("number-wait-cooling"));
        }

        return new Number { Subject = facts.Subject, Name = wording.Text("number-wait-fill"), Low = Measure.Of(coolingDecides ? HeatParameters.ForPeople(cooling!.Value) : needed!.Value), Note = string.Join(wording.Semicolon, notes) };
    }

    // The slowest of the spaces; null where it is not known of one of them.
    private Duration? Cooling()
    {
        var all = _numbers.Spaces.Value.Select(space => WaitCoversFullRise.Cooling(_numbers, space, rules.Heat)).ToList();
        return all.Count == 0 || all.Exists(one => one.Gap is not null) ? null : Duration.FromSeconds(all.Max(one => one.Value.Seconds));
    }

    private string Show(Verdict verdict, string word) => wording.Show(verdict.Words[word]);

    private string Span(Duration low, Duration high) => wording.Text("range", ("low", wording.Show(low)), ("high", wording.Show(high)));

    private static Duration Later(Duration a, Duration b) => a > b ? a : b;

    private static Duration Earlier(Duration a, Duration b) => a < b ? a : b;

    // The rounding keeps the last digit of a double from asking for one more.
    internal static int Fewest(double parts) => (int)Math.Clamp(Math.Ceiling(Math.Round(parts, 9)), 1, 1000);
}
