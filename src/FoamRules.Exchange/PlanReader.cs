using System.Security.Cryptography;
using FoamRules.Model;
using FoamRules.Text;
using Google.Protobuf;
using Google.Protobuf.WellKnownTypes;
using Contract = FoamRules.Contracts.V1;

namespace FoamRules.Exchange;

/// <summary>A plan as read: its facts, or everything that is wrong with it.</summary>
/// <param name="Plan">The facts; null where the plan cannot be read.</param>
/// <param name="Message">The plan as a message; null where the text cannot be read.</param>
/// <param name="Digest">SHA-256 of the message, in hexadecimal.</param>
/// <param name="Violations">What is wrong; empty where the plan can be read.</param>
public sealed record PlanRead(Plan? Plan, Contract.Plan? Message, string Digest, IReadOnlyList<Violation> Violations);

/// <summary>What a caller says of a plan besides the plan itself.</summary>
/// <param name="Now">Written into a plan that does not say when it is judged.</param>
/// <param name="Stage">Stands for the plan's own stage; null: the plan's own.</param>
public sealed record ReadOptions(DateTimeOffset Now, Stage? Stage = null);

/// <summary>
/// Reads plans, from YAML and JSON texts and from messages. Every value is checked against what the contract allows, and
/// everything that is wrong is named at once by the field's path.
/// </summary>
public sealed class PlanReader
{
    private readonly FieldChecker _checker = new();

    private PlanReader()
    {
    }

    /// <summary>Makes what reading the first plan would make: the contract's descriptors. Takes about as long as reading the rule sets, and needs none of them.</summary>
    public static void Prepare() => _ = Contract.Plan.Descriptor;

    /// <summary>Reads a YAML or JSON text.</summary>
    /// <param name="text">The text.</param>
    /// <param name="file">The file's name, for messages; null where there is none.</param>
    /// <param name="options">What the caller says besides.</param>
    public static PlanRead ReadText(string text, string? file, ReadOptions options)
    {
        var data = DataText.Read(text, file);
        if (data.Root is null)
        {
            return new PlanRead(null, null, "", data.Violations);
        }

        var message = new Contract.Plan();
        var unreadable = MessageReader.Read(data.Root, message, file);
        var read = ReadMessage(message, options);
        var all = new LineFinder(data.Root).Join(unreadable, read.Violations, file);
        return all.Count == 0 ? read : new PlanRead(null, message, "", all);
    }

    /// <summary>Reads a message.</summary>
    /// <param name="message">The message; it is left as it is.</param>
    /// <param name="options">What the caller says besides.</param>
    public static PlanRead ReadMessage(Contract.Plan message, ReadOptions options)
    {
        message = message.Clone();
        message.JudgedAt ??= Timestamp.FromDateTimeOffset(options.Now);
        if (options.Stage is { } stage)
        {
            message.Stage = (Contract.Stage)stage;
        }

        var reader = new PlanReader();
        var plan = (Plan)reader.Record(message, typeof(Plan), null);
        reader._checker.CheckReferences();
        var digest = Convert.ToHexStringLower(SHA256.HashData(message.ToByteArray()));
        return new PlanRead(reader._checker.Violations.Count == 0 ? plan : null, message, digest, reader._checker.Violations);
    }

    private object Record(IMessage message, System.Type type, PathStep? where)
    {
        var shape = RecordShape.Of(message.Descriptor, type);
        var record = Activator.CreateInstance(type)!;
        foreach (var member in shape.Members)
        {
            if (member.Field.IsRepeated)
            {
                var entries = _checker.Entries(message, member.Field, where);
                var builder = ListBuilder.For(member.Type, entries.Count);
                foreach (var (entry, step) in entries)
                {
                    if (Value(entry, member, step) is { } value)
                    {
                        builder.Add(value);
                    }
                }

                member.Set(record, builder.ToImmutableArray());
            }
            else
            {
                var step = new PathStep(where, member.Field.Name, null);
                if (_checker.Given(message, member.Field, step) is { } given && Value(given, member, step) is { } value)
                {
                    member.Set(record, value);
                }
            }
        }

        _checker.CheckChoices(message, where);
        _checker.CheckOrder(message, where);
        if (where is not null)
        {
            NodePlace.Set(record, where);
        }

        return record;
    }

    private object? Value(object given, RecordShape.Member member, PathStep step)
    {
        if (FieldChecker.HasFields(given, out var message))
        {
            return Record(message, member.Type, step);
        }

        var value = _checker.Value(given, member.Field, step);
        return value is int number && member.Type.IsEnum ? System.Enum.ToObject(member.Type, number) : value;
    }
}
