using System.CommandLine;

namespace FoamRules.Cli.Commands.Service;

/// <summary><c>foamrules review</c>: reviews on a service.</summary>
internal static class ReviewCommand
{
    public static Command Create() => new("review", """
        Submits plans for review on a service, and what follows: list, show, sign off, release, pre-start, close-out, re-entry. Exit code 0: done, or
        go; 10 and 20: hold and stop, where a plan was judged; 2: refused, or unusable input.

        Examples:
          foamrules review submit job.yaml --server http://localhost:5080 --actor "Olga Office" --role office
          foamrules review list --open-holds --server http://localhost:5080 --actor "Sam Safety" --role safety-officer
        """)
    {
        Submit(), List(), Show(), Revise(), SignOff(), Release(), PreStart(), CloseOut(), Reenter(),
    };

    private static Command Submit()
    {
        var file = PlanFile();
        return ReviewCall.Command("submit", "Submits a plan. Exit code as of check: 0 proceed, 10 hold, 20 stop.", [file], (parsed, desk) => desk.Submit(parsed.GetRequiredValue(file)));
    }

    private static Command List()
    {
        var text = new Option<string>("--text") { Description = "words of the plan's name, the authority or the permit", DefaultValueFactory = _ => "" };
        var requirement = new Option<string>("--requirement") { Description = "a requirement that the last report has a finding on", DefaultValueFactory = _ => "" };
        var open = new Option<bool>("--open-holds") { Description = "only those with open holds" };
        return ReviewCall.Command("list", "Lists reviews, the newest first.", [text, requirement, open],
            (parsed, desk) => desk.List(parsed.GetRequiredValue(text), parsed.GetRequiredValue(requirement), parsed.GetValue(open)));
    }

    private static Command Show()
    {
        var id = Id();
        return ReviewCall.Command("show", "Shows a review: what stands, and all that was done.", [id], (parsed, desk) => desk.Show(parsed.GetRequiredValue(id)));
    }

    private static Command Revise()
    {
        var (id, file, seen, why) = (Id(), PlanFile(), Seen(), Why());
        return ReviewCall.Command("revise", "Puts another revision in the place of the last one, which stays on record.", [id, file, seen, why],
            (parsed, desk) => desk.Revise(parsed.GetRequiredValue(id), parsed.GetRequiredValue(file), parsed.GetValue(seen), parsed.GetRequiredValue(why)));
    }

    private static Command SignOff()
    {
        var (id, seen) = (Id(), Seen());
        return ReviewCall.Command("sign-off", "Signs off the newest revision.", [id, seen], (parsed, desk) => desk.SignOff(parsed.GetRequiredValue(id), parsed.GetValue(seen)));
    }

    private static Command Release()
    {
        var (id, seen, why) = (Id(), Seen(), Why());
        var requirement = new Argument<string>("REQUIREMENT") { Description = "the requirement of the hold, such as fill.wall-holds-pressure" };
        var subject = new Option<string>("--subject") { Description = "the id of what it is held on; left out: the job", DefaultValueFactory = _ => "" };
        var actingAs = new Option<string>("--as") { Description = "the role in which it is released, one of those that the finding names", Required = true };
        var until = new Option<DateTimeOffset>("--until") { Description = "until when it stands, such as 2026-04-30T18:00-05:00", Required = true };
        var decidedBy = new Option<string>("--decided-by") { Description = "who decided, where it is not the caller's own role", DefaultValueFactory = _ => "" };
        var reference = new Option<string>("--reference") { Description = "where that is written", DefaultValueFactory = _ => "" };
        return ReviewCall.Command("release", "Releases a hold. A stop cannot be released.", [id, requirement, subject, actingAs, until, decidedBy, reference, seen, why],
            (parsed, desk) => desk.Release(
                parsed.GetRequiredValue(id), parsed.GetRequiredValue(requirement), parsed.GetRequiredValue(subject), parsed.GetValue(seen),
                new Contracts.V1.ReleaseHoldRequest
                {
                    ActingAs = parsed.GetRequiredValue(actingAs),
                    DecidedBy = parsed.GetRequiredValue(decidedBy),
                    Reference = parsed.GetRequiredValue(reference),
                    Why = parsed.GetRequiredValue(why),
                    Until = Google.Protobuf.WellKnownTypes.Timestamp.FromDateTimeOffset(parsed.GetValue(until)),
                }));
    }

    private static Command PreStart()
    {
        var id = Id();
        var today = new Option<string?>("--today") { Description = "the file with what is of today only: readings, people, lots; laid over the plan" };
        var plan = new Option<string?>("--plan") { Description = "the whole plan as it is about to be carried out; left out: the one that was signed off" };
        return ReviewCall.Command("pre-start", "Checks on site, now, before the start. Exit code 0: go; 10: hold; 20: stop.", [id, today, plan],
            (parsed, desk) => desk.PreStart(parsed.GetRequiredValue(id), parsed.GetValue(today), parsed.GetValue(plan)));
    }

    private static Command CloseOut()
    {
        var (id, file, seen) = (Id(), PlanFile(), Seen());
        return ReviewCall.Command("close-out", "Puts the foam as built on record.", [id, file, seen],
            (parsed, desk) => desk.CloseOut(parsed.GetRequiredValue(id), parsed.GetRequiredValue(file), parsed.GetValue(seen)));
    }

    private static Command Reenter()
    {
        var (id, seen) = (Id(), Seen());
        var area = new Argument<string>("AREA") { Description = "the area's id in the plan" };
        var group = new Option<string>("--for") { Description = "who is to come back", Required = true };
        group.AcceptOnlyFromAmong("trades", "occupants");
        var last = new Option<DateTimeOffset>("--last-spray") { Description = "when the last spraying, trimming or solvent use there really ended, such as 2026-04-30T15:30-05:00", Required = true };
        var (cleaned, covers, odour) = (YesNo("--cleaned", "dust and trimmings are cleaned up"), YesNo("--covers-off", "covers on air handling are off"), YesNo("--odour", "an odour is noticed"));
        var readings = new Option<string?>("--readings") { Description = "a file with what was measured in the air: areas of a plan with airborne_levels" };
        var actingAs = new Option<string>("--as") { Description = "the role in which it is released, one of those that the requirement names", Required = true };
        var decidedBy = new Option<string>("--decided-by") { Description = "who decided, where it is not the caller's own role", DefaultValueFactory = _ => "" };
        var reference = new Option<string>("--reference") { Description = "where that is written", DefaultValueFactory = _ => "" };
        var remark = new Option<string>("--remark") { Description = "a remark, which stays on record", DefaultValueFactory = _ => "" };
        return ReviewCall.Command("re-enter", "Releases an area for re-entry. Refused while the time has not passed, or something is not known. Exit code 0: released; 10: not yet.",
            [id, area, group, last, cleaned, covers, odour, readings, actingAs, decidedBy, reference, remark, seen],
            (parsed, desk) =>
            {
                var request = new Contracts.V1.ReleaseReentryRequest
                {
                    ReviewId = parsed.GetRequiredValue(id),
                    SeenVersion = parsed.GetValue(seen),
                    Area = parsed.GetRequiredValue(area),
                    Group = parsed.GetValue(group) == "trades" ? Contracts.V1.ReentryGroup.Trades : Contracts.V1.ReentryGroup.Occupants,
                    LastSprayAt = Google.Protobuf.WellKnownTypes.Timestamp.FromDateTimeOffset(parsed.GetValue(last)),
                    ActingAs = parsed.GetRequiredValue(actingAs),
                    DecidedBy = parsed.GetRequiredValue(decidedBy),
                    Reference = parsed.GetRequiredValue(reference),
                    Remark = parsed.GetRequiredValue(remark),
                };
                Give(parsed.GetValue(cleaned), yes => request.Cleaned = yes);
                Give(parsed.GetValue(covers), yes => request.CoversOff = yes);
                Give(parsed.GetValue(odour), yes => request.OdourRemains = yes);
                return desk.Reenter(request, parsed.GetValue(readings));
            });
    }

    // What is left out was not looked at: it is neither yes nor no.
    private static Option<string?> YesNo(string name, string description)
    {
        var option = new Option<string?>(name) { Description = $"{description}: yes or no; left out where nobody has looked" };
        option.AcceptOnlyFromAmong("yes", "no");
        return option;
    }

    private static void Give(string? answer, Action<bool> give)
    {
        if (answer is not null)
        {
            give(answer == "yes");
        }
    }

    private static Argument<string> Id() => new("ID") { Description = "the review's id" };

    private static Argument<string> PlanFile() => new("PLAN") { Description = "the plan, YAML or JSON; - reads standard input" };

    private static Option<long> Seen() => new("--seen") { Description = "the version that you saw, as show and list give it; refused where something happened since", Required = true };

    private static Option<string> Why() => new("--why") { Description = "the reason, which stays on record", Required = true };
}
