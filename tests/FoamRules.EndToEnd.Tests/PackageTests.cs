using System.IO.Compression;
using FoamRules.Contracts.V1;
using FoamRules.Exchange;
using FoamRules.Rules.Engine;
using FoamRules.Testing;
using Google.Protobuf;

namespace FoamRules.EndToEnd.Tests;

/// <summary>The client package, as somebody uses it who has nothing else of this repository.</summary>
public sealed class PackageTests(RunningServer server) : IClassFixture<RunningServer>
{
    private static readonly string Configuration = Path.GetFileName(Path.GetDirectoryName(Path.TrimEndingDirectorySeparator(AppContext.BaseDirectory)))!;

    [Fact]
    public async Task The_example_builds_against_the_packed_package_and_gets_the_engine_s_report()
    {
        using var files = new TemporaryFolder();
        var packages = Path.Combine(files.Path, "packages");
        await Succeeds("pack", Repository.PathOf("src", "FoamRules.Contracts"), "--no-build", "--configuration", Configuration, "--output", packages);
        var package = Directory.GetFiles(packages, "*.nupkg").Single();
        await using (var zip = await ZipFile.OpenReadAsync(package, TestContext.Current.CancellationToken))
        {
            var names = zip.Entries.Select(entry => entry.FullName).ToList();
            Assert.All(["README.md", "lib/net10.0/FoamRules.Contracts.dll", "lib/net10.0/FoamRules.Contracts.xml", "protos/foamrules/v1/plan.proto", "protos/google/rpc/status.proto", "protos/google/api/annotations.proto"], name => Assert.Contains(name, names));
        }

        // The package that was just packed, whatever lies in the machine's own folder of packages; what it needs comes from there.
        var machine = Environment.GetEnvironmentVariable("NUGET_PACKAGES") ?? Path.Combine(Environment.GetFolderPath(Environment.SpecialFolder.UserProfile), ".nuget", "packages");
        files.Write("nuget.config", $"""
            <configuration>
              <config><add key="globalPackagesFolder" value="{Path.Combine(files.Path, "restored")}" /></config>
              <fallbackPackageFolders><add key="machine" value="{machine}" /></fallbackPackageFolders>
              <packageSources><add key="packed" value="{packages}" /></packageSources>
            </configuration>
            """);
        foreach (var file in new[] { "Check.csproj", "Program.cs" })
        {
            files.Write(file, await File.ReadAllTextAsync(Repository.PathOf("examples", "dotnet", file), TestContext.Current.CancellationToken));
        }

        var plan = PlanReader.ReadText(await File.ReadAllTextAsync(Repository.PathOf("shared", "plans", "cold-store-dock-broken.yaml"), TestContext.Current.CancellationToken), null, new ReadOptions(default));
        var ran = await Programs.Run("dotnet", ["run", "--project", Path.Combine(files.Path, "Check.csproj"), "--", files.Write("plan.json", JsonFormatter.Default.Format(plan.Message)), server.Address], folder: files.Path);
        Assert.True(ran.Code == 1, ran.Output + ran.Errors);
        Assert.Equal(ReportMapper.ToMessage(Repository.Engine.Check(plan.Plan!, new CheckOptions(plan.Digest), TestContext.Current.CancellationToken).Report!), JsonParser.Default.Parse<Report>(ran.Output));
    }

    private static async Task Succeeds(params string[] arguments)
    {
        var ran = await Programs.Run("dotnet", arguments);
        Assert.True(ran.Code == 0, ran.Output + ran.Errors);
    }
}
