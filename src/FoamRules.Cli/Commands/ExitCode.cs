using FoamRules.Model;

namespace FoamRules.Cli.Commands;

/// <summary>What the command answers to the shell.</summary>
internal static class ExitCode
{
    /// <summary>Proceed, with or without cautions.</summary>
    public const int Proceed = 0;

    /// <summary>Unusable input or arguments.</summary>
    public const int Unusable = 2;

    /// <summary>Something must be released first.</summary>
    public const int Hold = 10;

    /// <summary>Do not start or go on.</summary>
    public const int Stop = 20;

    /// <summary>The code of a disposition.</summary>
    public static int Of(Disposition disposition) => disposition switch
    {
        Disposition.Stop => Stop,
        Disposition.Hold => Hold,
        _ => Proceed,
    };

    /// <summary>The worse of two answers: input that cannot be used is worse than a stop, since nothing is known of it.</summary>
    public static int Worse(int a, int b) => Rank(a) >= Rank(b) ? a : b;

    private static int Rank(int code) => code == Unusable ? int.MaxValue : code;
}
