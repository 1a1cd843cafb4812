using System.Text.Json.Nodes;
using FoamRules.Exchange;
using FoamRules.Model;
using FoamRules.Rules.Engine;
using FoamRules.Testing;
using Google.Protobuf;
using Google.Protobuf.Reflection;
using Contract = FoamRules.Contracts.V1;

namespace FoamRules.Rules.Tests;

/// <summary>What holds of every report, whatever the plan.</summary>
public sealed class ReportPropertyTests
{
    private static readonly Lazy<List<(Contract.Plan Message, Report Report)>> Reports = new(() => [.. Enumerable.Range(1000, 60).Select(seed =>
    {
        var message = PlanReader.ReadMessage(RandomPlans.Make((ulong)seed, 1 + (seed % 4)), new ReadOptions(DateTimeOffset.UnixEpoch)).Message!;
        return (message, Check(message));
    })]);

    [Fact]
    public void Every_piece_of_evidence_and_every_missing_field_points_into_the_plan()
    {
        foreach (var (message, report) in Reports.Value)
        {
            var json = JsonNode.Parse(new JsonFormatter(JsonFormatter.Settings.Default.WithPreserveProtoFieldNames(true)).Format(message))!;
            foreach (var path in report.Judgements.SelectMany(judgement => judgement.Evidence).Select(evidence => evidence.Path))
            {
                Assert.True(Resolves(Contract.Plan.Descriptor, json, path), path);
            }

            foreach (var path in report.Unknowns.Select(unknown => unknown.Path))
            {
                Assert.True(Resolves(Contract.Plan.Descriptor, json, path), path);
            }
        }
    }

    [Fact]
    public void The_same_plan_gives_the_same_report_byte_for_byte()
    {
        foreach (var (message, report) in Reports.Value)
        {
            Assert.Equal(ReportMapper.ToMessage(report).ToByteArray(), ReportMapper.ToMessage(Check(message)).ToByteArray());
        }
    }

    [Fact]
    public void The_order_of_areas_products_people_and_work_changes_nothing()
    {
        foreach (var (message, report) in Reports.Value)
        {
            var turned = message.Clone();
            Reverse(turned.Areas);
            Reverse(turned.Products);
            Reverse(turned.People);
            Reverse(turned.Work);
            var other = ReportMapper.ToMessage(Check(turned));
            var first = ReportMapper.ToMessage(report);
            other.PlanDigest = first.PlanDigest;
            foreach (var (mine, theirs) in first.Findings.Zip(other.Findings))
            {
                Assert.Equal(mine, theirs);
            }

            Assert.Equal(first.Judgements, other.Judgements);
            Assert.Equal(first, other);
        }
    }

    [Fact]
    public void A_finding_stands_exactly_where_a_judgement_has_a_severity()
    {
        foreach (var (_, report) in Reports.Value)
        {
            var judged = report.Judgements.Where(judgement => judgement.Severity is not null).Select(judgement => (judgement.Requirement, judgement.Subject, judgement.Severity)).ToHashSet();
            Assert.Equal(judged.Count, report.Findings.Length);
            Assert.All(report.Findings, finding => Assert.Contains((finding.Requirement, finding.Subject, (Severity?)finding.Severity), judged));
            Assert.All(report.Findings, finding => Assert.True(finding.Sources.Length > 0 && finding.Caution.Length > 0 && finding.Remedy.Length > 0, finding.Requirement));
            Assert.DoesNotContain(report.Findings, finding => finding is { Outcome: Outcome.Met or Outcome.NotApplicable });
        }
    }

    [Fact]
    public void The_disposition_is_the_worst_that_stands()
    {
        foreach (var (_, report) in Reports.Value)
        {
            var worst = report.Findings.Select(finding => finding.Severity).DefaultIfEmpty().Max();
            var expected = worst switch { Severity.StopWork => Disposition.Stop, Severity.HoldPoint => Disposition.Hold, Severity.Caution => Disposition.ProceedWithCautions, _ => Disposition.Proceed };
            Assert.Equal(expected, report.Disposition);
        }
    }

    [Fact]
    public void Weak_sources_never_stop_unless_the_row_is_flagged_as_imminent()
    {
        var book = Repository.Book("US");
        foreach (var (_, report) in Reports.Value)
        {
            foreach (var finding in report.Findings.Where(finding => finding.Severity == Severity.StopWork && book.Requirements[finding.Requirement].ImminentSetBy is null))
            {
                Assert.Contains(finding.Sources, source => source.Status is not (SourceStatus.CommonPractice or SourceStatus.FromMemory));
            }

            Assert.All(report.Findings.Where(finding => finding.CappedBecause.Length > 0), finding => Assert.Equal(Severity.HoldPoint, finding.Severity));
        }
    }

    [Fact]
    public void A_hold_names_who_may_release_it_and_never_the_crew_lead()
    {
        foreach (var (_, report) in Reports.Value)
        {
            Assert.All(report.Findings.Where(finding => finding.Severity == Severity.HoldPoint), finding => Assert.True(finding.ReleaseRoles.Length > 0, finding.Requirement));
            Assert.DoesNotContain(report.Findings.SelectMany(finding => finding.ReleaseRoles), role => role.Contains("crew", StringComparison.OrdinalIgnoreCase));
        }
    }

    [Fact]
    public void Units_change_the_sentences_and_nothing_else()
    {
        foreach (var (message, _) in Reports.Value)
        {
            var us = ReportMapper.ToMessage(Check(message, DisplayUnits.Us));
            var si = ReportMapper.ToMessage(Check(message, DisplayUnits.Si));
            Assert.Equal(us.Judgements, si.Judgements);
            Assert.Equal(us.Disposition, si.Disposition);
            Assert.Equal(us.Findings.Select(finding => (finding.Requirement, finding.Severity)), si.Findings.Select(finding => (finding.Requirement, finding.Severity)));
        }
    }

    private static Report Check(Contract.Plan message, DisplayUnits? units = null)
    {
        var read = PlanReader.ReadMessage(message, new ReadOptions(DateTimeOffset.UnixEpoch));
        return Repository.Engine.Check(read.Plan!, new CheckOptions(read.Digest, Units: units)).Report!;
    }

    private static void Reverse<T>(IList<T> list)
    {
        var turned = list.Reverse().ToList();
        list.Clear();
        turned.ForEach(list.Add);
    }

    // Follows a path by the contract's field names, and by ids or indexes into the lists that are given.
    private static bool Resolves(MessageDescriptor type, JsonNode? node, string path)
    {
        foreach (var step in path.Split('.'))
        {
            var bracket = step.IndexOf('[', StringComparison.Ordinal);
            var name = bracket < 0 ? step : step[..bracket];
            if (type.FindFieldByName(name) is not { } field)
            {
                return false;
            }

            node = (node as JsonObject)?[name];
            if (bracket >= 0)
            {
                var key = step[(bracket + 1)..^1];
                // The unknown crew stands for people whom the plan does not name.
                node = node is JsonArray list ? list.FirstOrDefault(entry => (string?)entry!["id"] == key) ?? (int.TryParse(key, out var index) && index < list.Count ? list[index] : null) : null;
                if (node is null && key != "crew")
                {
                    return false;
                }
            }

            if (field.FieldType == FieldType.Message)
            {
                type = field.MessageType;
            }
        }

        return true;
    }
}
