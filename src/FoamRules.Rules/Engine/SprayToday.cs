using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Judging;
using UnitsNet;

namespace FoamRules.Rules.Engine;

/// <summary>Today's numbers of sprayed foam: how many passes, how thick, and the wait between them.</summary>
internal sealed class SprayToday(SprayFacts facts, Wording wording)
{
    public IEnumerable<Number> All()
    {
        var (spray, sheet) = (facts.Spray, facts.Sheet);
        var planned = spray.Passes.Where(pass => pass.Thickness is not null).Select(pass => pass.Thickness!.Value).OrderDescending().ToList();
        var isPlanned = planned.Count > 0 && planned.Count == spray.Passes.Length;
        int passes;
        Length thickest;
        if (isPlanned)
        {
            (passes, thickest) = (planned.Count, planned[0]);
        }
        else if (spray is { Passes.IsEmpty: true, Thickness: { } total } && sheet.MaxPassThickness is { } most && most > Length.Zero)
        {
            passes = FillToday.Fewest(total / most);
            thickest = total / passes;
        }
        else
        {
            yield break;
        }

        yield return Of("number-passes") with { Aim = Measure.OfCount(passes), Note = isPlanned ? "" : wording.Text("number-passes-proposed") };
        var alike = !isPlanned || Quantities.Compare(planned[0], planned[^1]) == 0;
        yield return Of(alike ? "number-pass" : "number-pass-thickest") with
        {
            Aim = Measure.Of(thickest),
            Low = sheet.MinPassThickness is { } least ? Measure.Of(least) : null,
            High = sheet.MaxPassThickness is { } highest ? Measure.Of(highest) : null,
            Note = sheet is { MinPassThickness: null, MaxPassThickness: null } ? "" : wording.Text("number-pass-note"),
        };
        var waits = spray.Passes.Skip(1).Where(pass => pass.WaitBefore is not null).Select(pass => pass.WaitBefore!.Value).Order().ToList();
        if (passes > 1 && (waits.Count > 0 || sheet.WaitBetweenPasses is not null))
        {
            yield return Of("number-wait-pass") with
            {
                Aim = waits.Count > 0 ? Measure.Of(waits[0]) : null,
                Low = sheet.WaitBetweenPasses is { } wait ? Measure.Of(wait) : null,
                Note = wording.Text("number-wait-pass-note"),
            };
        }
    }

    private Number Of(string name) => new() { Subject = facts.Subject, Name = wording.Text(name) };
}
