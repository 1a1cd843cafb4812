using System.Collections.Immutable;
using System.Globalization;
using Antlr4.Runtime;
using Cel.Internal;
using static Cel.Internal.CelParser;

namespace FoamRules.RuleSets.Declared;

/// <summary>
/// Reads expressions by the Cel package's grammar of the Common Expression Language, the only file that knows it. What the
/// language of rule sets leaves out (maps, messages, bytes, unsigned numbers, null) is refused here, and so is what is too large.
/// </summary>
internal static class SyntaxReader
{
    /// <summary>The longest expression, in characters.</summary>
    public const int MaxLength = 4000;

    /// <summary>The most words and signs of an expression.</summary>
    public const int MaxTokens = 1000;

    /// <summary>The deepest nesting of brackets.</summary>
    public const int MaxDepth = 32;

    /// <summary>Reads an expression.</summary>
    /// <exception cref="ExpressionException">It is no expression of the language.</exception>
    public static Syntax Read(string text)
    {
        if (text.Length > MaxLength)
        {
            throw new ExpressionException(MaxLength, $"{text.Length} characters", $"at most {MaxLength}", "shorten the expression");
        }

        var errors = new Errors();
        var lexer = new Words(new AntlrInputStream(text));
        lexer.RemoveErrorListeners();
        lexer.AddErrorListener(errors);
        var tokens = new CommonTokenStream(lexer);
        tokens.Fill();
        CheckSize([.. tokens.GetTokens().Where(token => token.Channel == TokenConstants.DefaultChannel)]);
        var parser = new CelParser(tokens);
        parser.RemoveErrorListeners();
        parser.AddErrorListener(errors);
        return Read(parser.start().e);
    }

    private static void CheckSize(List<IToken> tokens)
    {
        if (tokens.Count > MaxTokens)
        {
            throw new ExpressionException(tokens[MaxTokens].StartIndex, $"{tokens.Count} words and signs", $"at most {MaxTokens}", "shorten the expression");
        }

        var depth = 0;
        foreach (var token in tokens)
        {
            depth += token.Text switch { "(" or "[" or "{" => 1, ")" or "]" or "}" => -1, _ => 0 };
            if (depth > MaxDepth)
            {
                throw new ExpressionException(token.StartIndex, $"brackets nested deeper than {MaxDepth}", $"at most {MaxDepth}", "simplify the expression");
            }
        }
    }

    private static Syntax Read(ExprContext context) => context.op is null
        ? Read(context.e)
        : new Conditional(Read(context.e), Read(context.e1), Read(context.e2), At(context));

    private static Syntax Read(ConditionalOrContext context) =>
        context.conditionalAnd().Skip(1).Aggregate(Read(context.e), (left, right) => new Binary("||", left, Read(right), left.At));

    private static Syntax Read(ConditionalAndContext context) =>
        context.relation().Skip(1).Aggregate(Read(context.e), (left, right) => new Binary("&&", left, Read(right), left.At));

    private static Syntax Read(RelationContext context) => context.op is null
        ? Read(context.calc())
        : new Binary(context.op.Text, Read(context.relation(0)), Read(context.relation(1)), At(context));

    private static Syntax Read(CalcContext context) => context.op is null
        ? Read(context.unary())
        : new Binary(context.op.Text, Read(context.calc(0)), Read(context.calc(1)), At(context));

    private static Syntax Read(UnaryContext context) => context switch
    {
        MemberExprContext one => Read(one.member()),
        // Pairs of ! or - cancel each other.
        LogicalNotContext not => not.EXCLAM().Length % 2 == 0 ? new Unary("!!", Read(not.member()), At(not)) : new Unary("!", Read(not.member()), At(not)),
        NegateContext minus => minus.MINUS().Length % 2 == 0 ? new Unary("--", Read(minus.member()), At(minus)) : new Unary("-", Read(minus.member()), At(minus)),
        _ => throw Unreadable(context),
    };

    private static Syntax Read(MemberContext context) => context switch
    {
        PrimaryExprContext primary => Read(primary.primary()),
        SelectContext { opt: not null } optional => throw Outside(optional, "an optional field", "test with has() whether a field is given"),
        SelectContext select => new Select(Read(select.member()), select.id.Text, select.id.StartIndex, At(select)),
        MemberCallContext call => new Call(Read(call.member()), call.id.Text, Read(call.args), call.id.StartIndex, At(call)),
        IndexContext { opt: not null } optional => throw Outside(optional, "an optional entry", "compare with size() first"),
        IndexContext index => new Index(Read(index.member()), Read(index.index), At(index)),
        _ => throw Unreadable(context),
    };

    private static Syntax Read(PrimaryContext context) => context switch
    {
        IdentOrGlobalCallContext { leadingDot: not null } rooted => throw Outside(rooted, "a name with a point before it", "take the point out"),
        IdentOrGlobalCallContext { op: null } name => new Name(name.id.Text, At(name)),
        IdentOrGlobalCallContext call => new Call(null, call.id.Text, Read(call.args), call.id.StartIndex, At(call)),
        NestedContext nested => Read(nested.e),
        CreateListContext list => new ListOf([.. (list.elems?._elems ?? []).Select(Read)], At(list)),
        CreateStructContext => throw Outside(context, "a map", "compare fields one by one"),
        CreateMessageContext => throw Outside(context, "a message", "compare fields one by one"),
        ConstantLiteralContext literal => Read(literal.literal()),
        _ => throw Unreadable(context),
    };

    private static Syntax Read(OptExprContext context) =>
        context.opt is null ? Read(context.e) : throw Outside(context, "an optional entry", "take the ? out");

    private static Literal Read(LiteralContext context) => context switch
    {
        BoolTrueContext => new Literal(true, At(context)),
        BoolFalseContext => new Literal(false, At(context)),
        IntContext number => new Literal(Whole(number), At(context)),
        DoubleContext number => new Literal(Real(number), At(context)),
        StringContext text => new Literal(StringLiteral.Read(text.tok.Text, At(context)), At(context)),
        BytesContext => throw Outside(context, "bytes", "a plan holds texts; write one"),
        UintContext => throw Outside(context, "an unsigned number", "take the u out"),
        NullContext => throw Outside(context, "null", "test with has() whether a field is given"),
        _ => throw Unreadable(context),
    };

    private static ImmutableArray<Syntax> Read(ExprListContext? context) => context is null ? [] : [.. context._e.Select(Read)];

    private static long Whole(IntContext context)
    {
        var digits = context.tok.Text;
        var sign = context.sign is null ? "" : "-";
        var isHex = digits.StartsWith("0x", StringComparison.Ordinal);
        var number = isHex
            ? System.Numerics.BigInteger.Parse("0" + digits[2..], NumberStyles.HexNumber, CultureInfo.InvariantCulture) * (sign.Length == 0 ? 1 : -1)
            : System.Numerics.BigInteger.Parse(sign + digits, CultureInfo.InvariantCulture);
        return number >= long.MinValue && number <= long.MaxValue
            ? (long)number
            : throw new ExpressionException(At(context), $"the number {sign}{digits}", "a whole number of at most 64 bits", "write a smaller number");
    }

    private static double Real(DoubleContext context)
    {
        var text = (context.sign is null ? "" : "-") + context.tok.Text;
        var number = double.Parse(text, NumberStyles.Float, CultureInfo.InvariantCulture);
        return double.IsFinite(number) ? number : throw new ExpressionException(At(context), $"the number {text}", "a finite number", "write a smaller number");
    }

    private static int At(ParserRuleContext context) => context.Start.StartIndex;

    private static ExpressionException Outside(ParserRuleContext context, string found, string remedy) =>
        new(At(context), found, "what docs/expressions.md lists", remedy);

    private static ExpressionException Unreadable(ParserRuleContext context) =>
        new(At(context), $"`{context.GetText()}`", "an expression", "see docs/expressions.md");

    // The first error is the one that helps; what follows is often only its echo.
    private static ExpressionException NoWord(int at) =>
        new(at, "a character that begins no word or sign", "an expression", "close each quote, and join conditions with && or ||");

    // The library writes the text up to the fault into its message, and throws where that ends within a character of two code units.
    private sealed class Words(ICharStream text) : CelLexer(text)
    {
        public override void NotifyListeners(LexerNoViableAltException e) => throw NoWord(TokenStartCharIndex);
    }

    private sealed class Errors : IAntlrErrorListener<int>, IAntlrErrorListener<IToken>
    {
        public void SyntaxError(TextWriter output, IRecognizer recognizer, int offendingSymbol, int line, int charPositionInLine, string msg, RecognitionException e) =>
            throw NoWord(((Lexer)recognizer).TokenStartCharIndex);

        public void SyntaxError(TextWriter output, IRecognizer recognizer, IToken offendingSymbol, int line, int charPositionInLine, string msg, RecognitionException e)
        {
            var isEnd = offendingSymbol.Type == TokenConstants.EOF;
            throw new ExpressionException(
                offendingSymbol.StartIndex, isEnd ? "the end of the expression" : $"`{offendingSymbol.Text}`", "an expression", "check brackets, quotes and operators at this place");
        }
    }
}
