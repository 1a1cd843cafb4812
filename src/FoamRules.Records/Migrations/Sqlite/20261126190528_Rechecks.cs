using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace FoamRules.Records.Migrations.Sqlite
{
    /// <inheritdoc />
    public partial class Rechecks : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.CreateTable(
                name: "recheck_runs",
                columns: table => new
                {
                    id = table.Column<string>(type: "TEXT", nullable: false),
                    started_microseconds = table.Column<long>(type: "INTEGER", nullable: false),
                    rules = table.Column<string>(type: "TEXT", nullable: false),
                    engine = table.Column<string>(type: "TEXT", nullable: false),
                    reviews = table.Column<int>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_recheck_runs", x => x.id);
                });

            migrationBuilder.CreateTable(
                name: "recheck_parts",
                columns: table => new
                {
                    run_id = table.Column<string>(type: "TEXT", nullable: false),
                    first = table.Column<long>(type: "INTEGER", nullable: false),
                    last = table.Column<long>(type: "INTEGER", nullable: false),
                    reviews = table.Column<int>(type: "INTEGER", nullable: false),
                    claimed_by = table.Column<string>(type: "TEXT", nullable: false),
                    claimed_until = table.Column<long>(type: "INTEGER", nullable: false),
                    result = table.Column<string>(type: "TEXT", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_recheck_parts", x => new { x.run_id, x.first });
                    table.ForeignKey(
                        name: "FK_recheck_parts_recheck_runs_run_id",
                        column: x => x.run_id,
                        principalTable: "recheck_runs",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "recheck_parts");

            migrationBuilder.DropTable(
                name: "recheck_runs");
        }
    }
}
