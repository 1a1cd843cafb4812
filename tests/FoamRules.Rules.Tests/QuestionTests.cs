using FoamRules.Exchange;
using FoamRules.Model;
using FoamRules.Rules.Engine;
using FoamRules.Testing;
using Google.Protobuf.Reflection;
using Contract = FoamRules.Contracts.V1;

namespace FoamRules.Rules.Tests;

/// <summary>What is not known comes ranked, each with a question that a person would ask.</summary>
public sealed class QuestionTests
{
    private static readonly Lazy<List<Asked>> Reports = new(() =>
    [
        .. CaseFiles.Read().SelectMany(file => file.Cases).Select(one => CheckedCases.Of(one).Asked),
        .. Enumerable.Range(3000, 60).Select(seed => Asked.Of(Check(PlanReader.ReadMessage(RandomPlans.Make((ulong)seed, 1 + (seed % 4)), new ReadOptions(DateTimeOffset.UnixEpoch))))),
    ]);

    [Fact]
    public void Every_field_that_a_requirement_waited_for_has_a_question()
    {
        var book = Repository.Book("US");
        var patterns = Reports.Value.SelectMany(asked => asked.Patterns).Distinct().Order(StringComparer.Ordinal);
        var without = patterns.Where(pattern => !book.Questions.ContainsKey(pattern)).ToList();
        Assert.True(without.Count == 0, string.Join(Environment.NewLine, without));
    }

    [Fact]
    public void Every_question_is_of_a_field_of_the_contract_and_ends_as_a_question()
    {
        foreach (var (key, question) in Repository.Book("US").Questions)
        {
            var type = Contract.Plan.Descriptor;
            foreach (var step in key.Split('.'))
            {
                var field = type.FindFieldByName(step);
                Assert.True(field is not null, key);
                type = field.FieldType == FieldType.Message ? field.MessageType : type;
            }

            Assert.EndsWith("?", question, StringComparison.Ordinal);
        }
    }

    [Fact]
    public void Questions_name_what_they_ask_of()
    {
        Assert.NotEmpty(Reports.Value);
        var questions = Asked.Questions;
        Assert.Equal("How thick is each pass of w1?", questions["work[w1].spray.passes"]);
        Assert.Equal("How long is the wait before pass 2 of w1?", questions["work[w1].spray.passes[1].wait_before"]);
        Assert.All(questions.Values, question => Assert.DoesNotContain("{", question, StringComparison.Ordinal));
    }

    [Fact]
    public void The_worst_that_could_come_out_comes_first_then_what_most_requirements_wait_for()
    {
        Assert.NotEmpty(Reports.Value);
        Assert.DoesNotContain(Reports.Value, asked => !asked.IsRanked);
    }

    private static Report Check(PlanRead read) => Repository.Engine.Check(read.Plan!, new CheckOptions(read.Digest)).Report!;
}
