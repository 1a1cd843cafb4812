using Grpc.Core;

namespace FoamRules.Service;

/// <summary>What the service writes into its log.</summary>
/// <remarks>One class for all of it: of two, the compiler writes first now the one, now the other, and no build comes out like the last.</remarks>
internal static partial class ServiceLog
{
    [LoggerMessage(EventId = 1, EventName = "CallAnswered", Level = LogLevel.Information, Message = "{Method} answered {StatusCode} in {Milliseconds:0.0} ms")]
    internal static partial void Answered(ILogger log, string method, StatusCode statusCode, double milliseconds);

    [LoggerMessage(EventId = 2, EventName = "CallFailed", Level = LogLevel.Error, Message = "{Method} failed after {Milliseconds:0.0} ms")]
    internal static partial void Failed(ILogger log, Exception error, string method, double milliseconds);

    [LoggerMessage(EventId = 10, EventName = "RulesTaken", Level = LogLevel.Information, Message = "rule sets taken into use: {RuleSets}")]
    internal static partial void RulesTaken(ILogger log, string ruleSets);

    [LoggerMessage(EventId = 11, EventName = "RulesRefused", Level = LogLevel.Error, Message = "changed rule sets refused with {Count} violations; the old ones stay in use")]
    internal static partial void RulesRefused(ILogger log, int count);

    [LoggerMessage(EventId = 12, EventName = "RulesViolation", Level = LogLevel.Error, Message = "{File}({Line},{Column}) refused: {Violation}")]
    internal static partial void RulesViolation(ILogger log, string file, int line, int column, string violation);

    [LoggerMessage(EventId = 13, EventName = "RulesRestored", Level = LogLevel.Information, Message = "the folder holds the rule sets in use again")]
    internal static partial void RulesRestored(ILogger log);

    [LoggerMessage(EventId = 14, EventName = "RulesUntold", Level = LogLevel.Warning, Message = "changes of the folder are not told ({Reason}); it is looked at every few seconds")]
    internal static partial void RulesUntold(ILogger log, string reason);

    [LoggerMessage(EventId = 15, EventName = "RulesFailed", Level = LogLevel.Error, Message = "reading the changed rule sets failed")]
    internal static partial void RulesFailed(ILogger log, Exception error);
}
