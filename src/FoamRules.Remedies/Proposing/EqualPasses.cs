using FoamRules.Model;
using UnitsNet;
using Contract = FoamRules.Contracts.V1;

namespace FoamRules.Remedies.Proposing;

/// <summary>The thickness in equal passes of at most the data sheet's, with its wait before each and its thickness a day; then in more passes, and with longer waits.</summary>
internal sealed class EqualPasses : IProposer
{
    private const int MorePasses = 3;
    private static readonly int[] LongerWaits = [1, 2, 4];

    /// <inheritdoc/>
    public IEnumerable<Proposal> Propose(Situation situation)
    {
        if (situation is not { Work.Spray: { Passes.IsEmpty: false } spray, Sheet: { MaxPassThickness: { } most } sheet, WorkMessage.Spray: { } message }
            || situation.PassesDone > 0 || most <= Length.Zero || spray.Passes.Any(pass => pass.Thickness is null))
        {
            yield break;
        }

        var planned = spray.Passes.Aggregate(Length.Zero, (sum, pass) => sum + pass.Thickness!.Value);
        var total = spray.Thickness is { } specified && specified > planned ? specified : planned;
        var fewest = (int)Math.Ceiling(Math.Round(total / most, 9));
        var waits = spray.Passes.Select(pass => pass.WaitBefore).Append(sheet.WaitBetweenPasses).OfType<Duration>().Order().ToList();
        foreach (var count in Enumerable.Range(fewest, MorePasses + 1))
        {
            foreach (var times in waits.Count == 0 ? LongerWaits.Take(1) : LongerWaits)
            {
                if (Passes(situation, message, sheet, total / count, count, waits.Count == 0 ? null : waits[^1] * times) is { } passes)
                {
                    yield return new Proposal($"{situation.WorkPath}.spray.passes", passes);
                }
            }
        }
    }

    private static List<Contract.Pass>? Passes(Situation situation, Contract.SprayApplication message, Product sheet, Length each, int count, Duration? wait)
    {
        var inches = message.Passes[0].Thickness.UnitCase is Contract.Length.UnitOneofCase.Inches or Contract.Length.UnitOneofCase.Feet;
        // A figure that a gauge shows, where it is still within the data sheet's thickness.
        var figure = situation.Figures.Up(each, inches, "fine");
        var fits = QuantityOf(figure) <= sheet.MaxPassThickness!.Value;
        var thickness = fits ? figure : inches ? new Contract.Length { Inches = each.Inches } : new Contract.Length { Millimeters = each.Millimeters };
        var perDay = sheet.MaxDailyThickness is { } daily ? (int)Math.Floor(Math.Round(daily / QuantityOf(thickness), 9)) : count;
        if (perDay < 1 || QuantityOf(thickness) < (sheet.MinPassThickness ?? Length.Zero))
        {
            return null;
        }

        var days = message.Passes.Where(pass => pass.HasDay).Select(pass => pass.Day).ToList();
        var passes = new List<Contract.Pass>();
        for (var i = 0; i < count; i++)
        {
            var pass = new Contract.Pass { Thickness = thickness.Clone() };
            if (i > 0 && wait is { } between)
            {
                pass.WaitBefore = new Contract.Duration { Minutes = Math.Round(between.Minutes, 6) };
            }

            if (days.Count > 0)
            {
                pass.Day = days.Min() + (i / perDay);
            }

            passes.Add(pass);
        }

        return passes;
    }

    private static Length QuantityOf(Contract.Length length) => length.UnitCase == Contract.Length.UnitOneofCase.Inches ? Length.FromInches(length.Inches) : Length.FromMillimeters(length.Millimeters);
}
