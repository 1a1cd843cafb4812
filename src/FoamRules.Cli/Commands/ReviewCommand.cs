using System.CommandLine;

namespace FoamRules.Cli.Commands;

/// <summary><c>foamrules review</c>: reviews on a service.</summary>
internal static class ReviewCommand
{
    public static Command Create() => new("review", """
        Submits plans for review on a service, and what follows: list, show, sign off, release, pre-start, close-out. Exit code 0: done, or
        go; 10 and 20: hold and stop, where a plan was judged; 2: refused, or unusable input.

        Examples:
          foamrules review submit job.yaml --server http://localhost:5080 --actor "Olga Office" --role office
          foamrules review list --open-holds --server http://localhost:5080 --actor "Sam Safety" --role safety-officer
        """)
    {
        Submit(), List(), Show(), Revise(), SignOff(), Release(), PreStart(), CloseOut(),
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

    private static Argument<string> Id() => new("ID") { Description = "the review's id" };

    private static Argument<string> PlanFile() => new("PLAN") { Description = "the plan, YAML or JSON; - reads standard input" };

    private static Option<long> Seen() => new("--seen") { Description = "the version that you saw, as show and list give it; refused where something happened since", Required = true };

    private static Option<string> Why() => new("--why") { Description = "the reason, which stays on record", Required = true };
}
